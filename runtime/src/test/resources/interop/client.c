/* A client on libmodbus: every table and type of the project beside it. client PORT VECTORS */
#include <errno.h>
#include <modbus.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static modbus_t *context;

static void check(int good, const char *what) {
  if (!good) {
    fprintf(stderr, "%s: %s\n", what, modbus_strerror(errno));
    exit(1);
  }
}

static void vectors(const char *file) {
  FILE *in = fopen(file, "r");
  char line[200];
  check(in != NULL, file);
  while (fgets(line, sizeof line, in) != NULL) {
    uint16_t words[16], read[16];
    int count = 0;
    char *type = strtok(line, " \n");
    int address = atoi(strtok(NULL, " \n"));
    for (char *word = strtok(NULL, " \n"); word != NULL; word = strtok(NULL, " \n")) {
      words[count++] = strtol(word, NULL, 16);
    }
    check(modbus_write_registers(context, address, count, words) == count, type);
    check(modbus_read_registers(context, address, count, read) == count, type);
    check(memcmp(words, read, 2 * count) == 0, type);
    check(modbus_read_input_registers(context, address, count, read) == count, type);
    check(memcmp(words, read, 2 * count) == 0, type);
  }
  fclose(in);
}

static void bits(void) {
  uint8_t pattern[10] = {1, 0, 1, 1, 0, 0, 1, 1, 1, 0}, read[10];
  check(modbus_write_bits(context, 0, 10, pattern) == 10, "FC 15");
  check(modbus_read_bits(context, 0, 10, read) == 10, "FC 1");
  check(memcmp(pattern, read, 10) == 0, "FC 1 values");
  check(modbus_write_bit(context, 1, 1) == 1, "FC 5");
  pattern[1] = 1;
  check(modbus_read_input_bits(context, 0, 10, read) == 10, "FC 2");
  check(memcmp(pattern, read, 10) == 0, "FC 2 values");
}

static void registers(void) {
  uint16_t word, words[2] = {0x0102, 0}, read[4];
  check(modbus_write_register(context, 4, 0x00F2) == 1, "FC 6");
  check(modbus_mask_write_register(context, 4, 0x00F0, 0x0025) == 1, "FC 22");
  check(modbus_read_registers(context, 4, 1, &word) == 1 && word == 0x00F5, "FC 22 value");
  check(modbus_write_and_read_registers(context, 4, 1, words, 2, 3, read) == 3, "FC 23");
  check(read[2] == 0x0102, "FC 23 reads what it wrote");
}

/* The library's functions for chosen byte orders disagree with one another in version 3.1.6, so
   floats go by its plain one, low word first, and integers by its macros, high word first. */
static void values(void) {
  uint16_t words[2];
  int number = -123456;
  modbus_set_float(-1.5f, words);
  check(modbus_write_registers(context, 30, 2, words) == 2, "a float");
  check(modbus_read_input_registers(context, 30, 2, words) == 2, "a float read");
  check(modbus_get_float(words) == -1.5f, "a float, low word first");
  MODBUS_SET_INT32_TO_INT16(words, 0, number);
  check(modbus_write_registers(context, 6, 2, words) == 2, "an integer");
  check(modbus_read_registers(context, 6, 2, words) == 2, "an integer read");
  check(MODBUS_GET_INT32_FROM_INT16(words, 0) == number, "an integer, high word first");
}

static void refusals(void) {
  uint16_t word;
  check(modbus_read_registers(context, 90, 1, &word) < 0 && errno == EMBXILADD, "a hole is 02");
  check(modbus_write_register(context, 3, 256) < 0 && errno == EMBXSFAIL, "too large is 04");
  check(modbus_write_register(context, 6, 1) < 0 && errno == EMBXILADD, "half a value is 02");
  modbus_set_slave(context, 99);
  check(modbus_read_registers(context, 0, 1, &word) < 0 && errno == EMBXGPATH, "no unit 99");
  modbus_set_slave(context, 7);
}

int main(int argc, char **argv) {
  check(argc == 3, "usage: client PORT VECTORS");
  context = modbus_new_tcp("127.0.0.1", atoi(argv[1]));
  modbus_set_slave(context, 7);
  check(modbus_connect(context) == 0, "connect");
  vectors(argv[2]);
  bits();
  registers();
  values();
  refusals();
  modbus_close(context);
  puts("all good");
  return 0;
}
