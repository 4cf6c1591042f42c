package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import bufferstop.image.OperatorWrites;
import bufferstop.model.ModbusMap.ByteOrder;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Two characters a register, the first in the higher byte, zeros behind the end: common practice
 * and SunSpec's rule [second-hand]; no Modbus document says it.
 */
class TextSlotTest {
  private static final int CELL = 3;

  private static long[] image(String text) {
    long[] cells = new long[CELL + 5];
    cells[CELL] = text.length();
    for (int i = 0; i < text.length(); i++) {
      cells[CELL + 1 + i / 8] |= (long) text.charAt(i) << 8 * (7 - i % 8);
    }
    return cells;
  }

  private static TextSlot slot(int most, ByteOrder order) {
    return new TextSlot(0, CELL, most, order, "", true);
  }

  private static String words(TextSlot slot, long[] image) {
    StringBuilder words = new StringBuilder();
    for (int i = 0; i < slot.size(); i++) {
      words.append(String.format("%04X ", slot.word(image, i)));
    }
    return words.toString().strip();
  }

  @ParameterizedTest(name = "{0} of at most {1} is {2}")
  @CsvSource({
    "SunS, 4, 5375 6E53",
    "SunS, 5, 5375 6E53 0000",
    "SunSp, 5, 5375 6E53 7000",
    "A, 1, 4100",
    "'', 3, 0000 0000",
    "wagon number, 12, 7761 676F 6E20 6E75 6D62 6572"
  })
  void isReadWithZerosBehindItsEnd(String text, int most, String words) {
    assertEquals(words, words(slot(most, ByteOrder.HIGH_BYTE_FIRST), image(text)));
  }

  @Test
  void bytesMayBeExchanged() {
    assertEquals("7553 536E", words(slot(4, ByteOrder.LOW_BYTE_FIRST), image("SunS")));
  }

  /** A length of another scan than the bytes must not lead beyond the cells. */
  @Test
  void aLengthThatCannotBeIsNoFailure() {
    long[] cells = image("abcd");
    cells[CELL] = 4711;
    assertEquals("6162 6364", words(slot(4, ByteOrder.HIGH_BYTE_FIRST), cells));
    cells[CELL] = -1;
    assertEquals("0000 0000", words(slot(4, ByteOrder.HIGH_BYTE_FIRST), cells));
  }

  private static long[] written(int most, ByteOrder order, String pdu) throws Refusal {
    Exchange exchange = new Exchange();
    byte[] frame = Bench.frame(1, 1, Bench.bytes(pdu));
    System.arraycopy(frame, 0, exchange.request, 0, frame.length);
    AddressTable table = new AddressTable(List.of(slot(most, order)));
    long[] cells = image("before that!");
    OperatorWrites writes = new OperatorWrites(cells.length);
    writes.offer(WriteBatch.registers(table, exchange, 1, exchange.word(3), 6));
    writes.drain(cells, 0, (image, request) -> request.writeTo(image));
    return cells;
  }

  @ParameterizedTest(name = "at most {0}: {1} gives {2}")
  @CsvSource({
    "4, 10 00 00 00 02 04 53 75 6E 53, SunS",
    "4, 10 00 00 00 02 04 53 75 00 53, Su",
    "4, 10 00 00 00 02 04 00 00 00 00, ''",
    "3, 10 00 00 00 02 04 53 75 6E 00, Sun",
    "9, 10 00 00 00 05 0A 31 32 33 34 35 36 37 38 39 00, 123456789"
  })
  void isWrittenUpToTheFirstZero(int most, String pdu, String text) throws Refusal {
    long[] cells = written(most, ByteOrder.HIGH_BYTE_FIRST, pdu);
    long[] expected = image(text);
    int count = 1 + (most + 7) / 8;
    for (int i = CELL; i < CELL + count; i++) {
      assertEquals(expected[i], cells[i], "cell " + i);
    }
  }

  @Test
  void oneCharacterMoreThanItHoldsIs04() {
    String pdu = "10 00 00 00 02 04 53 75 6E 53";
    Refusal refusal = assertThrows(Refusal.class, () -> written(3, ByteOrder.HIGH_BYTE_FIRST, pdu));
    assertEquals(Refusal.DEVICE_FAILURE, refusal.code());
  }

  @Test
  void exchangedBytesAreWrittenInTheirOrder() throws Refusal {
    long[] cells = written(4, ByteOrder.LOW_BYTE_FIRST, "10 00 00 00 02 04 75 53 53 6E");
    assertEquals(image("SunS")[CELL + 1], cells[CELL + 1]);
  }
}
