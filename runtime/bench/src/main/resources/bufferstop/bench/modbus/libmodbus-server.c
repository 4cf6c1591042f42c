/* A single-threaded server on libmodbus, as its documentation builds one: select, receive, reply.
   Prints the port it listens on. 2000 coils, 125 holding registers. */
#include <arpa/inet.h>
#include <errno.h>
#include <modbus.h>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/select.h>
#include <sys/socket.h>
#include <unistd.h>

int main(void) {
  modbus_t *context = modbus_new_tcp("127.0.0.1", 0);
  modbus_mapping_t *mapping = modbus_mapping_new(2000, 0, 125, 0);
  int listener = modbus_tcp_listen(context, 128);
  if (mapping == NULL || listener < 0) {
    fprintf(stderr, "%s\n", modbus_strerror(errno));
    return 1;
  }
  struct sockaddr_in address;
  socklen_t length = sizeof address;
  getsockname(listener, (struct sockaddr *)&address, &length);
  printf("%d\n", ntohs(address.sin_port));
  fflush(stdout);

  fd_set all;
  FD_ZERO(&all);
  FD_SET(listener, &all);
  int most = listener;
  for (;;) {
    fd_set ready = all;
    if (select(most + 1, &ready, NULL, NULL, NULL) < 0) {
      return 1;
    }
    for (int fd = 0; fd <= most; fd++) {
      if (!FD_ISSET(fd, &ready)) {
        continue;
      }
      if (fd == listener) {
        int client = accept(listener, NULL, NULL);
        int on = 1;
        if (client >= 0) {
          setsockopt(client, IPPROTO_TCP, TCP_NODELAY, &on, sizeof on);
          FD_SET(client, &all);
          most = client > most ? client : most;
        }
        continue;
      }
      uint8_t query[MODBUS_TCP_MAX_ADU_LENGTH];
      modbus_set_socket(context, fd);
      int received = modbus_receive(context, query);
      if (received > 0) {
        modbus_reply(context, query, received, mapping);
      } else if (received < 0) {
        close(fd);
        FD_CLR(fd, &all);
      }
    }
  }
}
