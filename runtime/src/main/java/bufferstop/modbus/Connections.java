package bufferstop.modbus;

import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** All clients of a server, each with its thread, up to a limit. */
final class Connections {
  private final int limit;
  private final String threadName;
  private final Map<Connection, Thread> threads = new LinkedHashMap<>();
  private boolean closed;
  private long accepted;

  Connections(int limit, String threadName) {
    this.limit = limit;
    this.threadName = threadName;
  }

  /** Serves a new client; at the limit the one that has been idle longest gives way. */
  synchronized void add(Connection connection) {
    if (closed) {
      connection.close();
      return;
    }
    List<Connection> open = threads.keySet().stream().filter(c -> !c.isClosed()).toList();
    if (open.size() >= limit) {
      open.stream().min(longestIdleFirst()).ifPresent(Connection::close);
    }
    Thread thread = new Thread(() -> serve(connection), threadName + "-" + ++accepted);
    thread.setDaemon(true);
    threads.put(connection, thread);
    try {
      thread.start();
    } catch (OutOfMemoryError e) { // the system has no thread left; the other clients go on
      threads.remove(connection);
      connection.close();
      throw new IllegalStateException("no thread for another client", e);
    }
  }

  private static Comparator<Connection> longestIdleFirst() {
    long now = System.nanoTime();
    return Comparator.comparing(Connection::isAnswering)
        .thenComparing(c -> now - c.lastNanos(), Comparator.reverseOrder());
  }

  private void serve(Connection connection) {
    try {
      connection.run();
    } finally {
      remove(connection);
    }
  }

  private synchronized void remove(Connection connection) {
    threads.remove(connection);
  }

  /** Closes every client's socket and waits for the threads. */
  void close() {
    List<Thread> ending = closeSockets();
    ending.forEach(Thread::interrupt); // out of a wait for a scan
    ending.forEach(Threads::join);
  }

  private synchronized List<Thread> closeSockets() {
    closed = true;
    threads.keySet().forEach(Connection::close);
    return List.copyOf(threads.values());
  }
}
