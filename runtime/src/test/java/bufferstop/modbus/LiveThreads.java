package bufferstop.modbus;

import java.util.List;

/** Threads that live, by the beginning of their names. */
final class LiveThreads {
  private LiveThreads() {}

  static List<String> named(String beginning) {
    return Thread.getAllStackTraces().keySet().stream()
        .map(Thread::getName)
        .filter(name -> name.startsWith(beginning))
        .sorted()
        .toList();
  }
}
