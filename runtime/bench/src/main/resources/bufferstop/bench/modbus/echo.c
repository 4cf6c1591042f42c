/* The limit: reads requests of 12 bytes and sends as many bytes as a Modbus server would, one send
   a request, without looking at anything but the size. Prints the port it listens on. */
#include <arpa/inet.h>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/epoll.h>
#include <sys/socket.h>
#include <unistd.h>

enum { REQUEST = 12, MOST = 4096, EVENTS = 128 };

struct client {
  int fd;
  int have;
  unsigned char in[MOST];
};

static int size_of_answer(const unsigned char *request) {
  int quantity = request[10] << 8 | request[11];
  return 9 + (request[7] <= 2 ? (quantity + 7) / 8 : 2 * quantity);
}

static int serve(struct client *c) {
  static unsigned char out[300];
  int got = read(c->fd, c->in + c->have, MOST - c->have);
  if (got <= 0) {
    return 0;
  }
  c->have += got;
  int at = 0;
  for (; c->have - at >= REQUEST; at += REQUEST) {
    int size = size_of_answer(c->in + at);
    memcpy(out, c->in + at, 8);
    out[4] = (size - 6) >> 8;
    out[5] = (size - 6) & 0xFF;
    if (send(c->fd, out, size, MSG_NOSIGNAL) != size) {
      return 0;
    }
  }
  memmove(c->in, c->in + at, c->have - at);
  c->have -= at;
  return 1;
}

int main(void) {
  int on = 1;
  int listener = socket(AF_INET, SOCK_STREAM, 0);
  struct sockaddr_in address = {.sin_family = AF_INET, .sin_addr.s_addr = htonl(INADDR_LOOPBACK)};
  socklen_t length = sizeof address;
  if (bind(listener, (struct sockaddr *)&address, length) < 0 || listen(listener, 128) < 0) {
    perror("listen");
    return 1;
  }
  getsockname(listener, (struct sockaddr *)&address, &length);
  printf("%d\n", ntohs(address.sin_port));
  fflush(stdout);

  int poll = epoll_create1(0);
  struct epoll_event event = {.events = EPOLLIN, .data.ptr = NULL};
  epoll_ctl(poll, EPOLL_CTL_ADD, listener, &event);
  for (;;) {
    struct epoll_event events[EVENTS];
    int count = epoll_wait(poll, events, EVENTS, -1);
    for (int i = 0; i < count; i++) {
      struct client *c = events[i].data.ptr;
      if (c == NULL) {
        struct client *taken = calloc(1, sizeof *taken);
        taken->fd = accept(listener, NULL, NULL);
        setsockopt(taken->fd, IPPROTO_TCP, TCP_NODELAY, &on, sizeof on);
        struct epoll_event added = {.events = EPOLLIN, .data.ptr = taken};
        epoll_ctl(poll, EPOLL_CTL_ADD, taken->fd, &added);
      } else if (!serve(c)) {
        close(c->fd);
        free(c);
      }
    }
  }
}
