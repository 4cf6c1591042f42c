package bufferstop.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Stream;

/** Waits until files are saved. It looks at their times, which works on every file system. */
final class FileWatch {
  private static final long LOOK_NANOS = 50_000_000;

  private final Map<String, String> stamps = new TreeMap<>();
  private Path folder;

  /**
   * What to wait for from now on.
   *
   * @param files as they are named elsewhere
   * @param folder whose new files count, too
   */
  void watch(Set<String> files, Path folder) throws IOException {
    this.folder = folder;
    Set<String> all = new TreeSet<>(files);
    all.addAll(inFolder());
    stamps.keySet().retainAll(all);
    for (String file : all) {
      if (!stamps.containsKey(file)) {
        stamps.put(file, stamp(file));
      }
    }
  }

  private List<String> inFolder() throws IOException {
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(folder)) {
      return files
          .map(f -> f.normalize().toString().replace('\\', '/'))
          .filter(f -> f.endsWith(".yaml"))
          .toList();
    }
  }

  /** Waits; the files that changed, came or went. */
  Set<String> await() throws IOException {
    while (true) {
      LockSupport.parkNanos(LOOK_NANOS);
      Set<String> looked = new TreeSet<>(stamps.keySet());
      looked.addAll(inFolder());
      Set<String> changed = new TreeSet<>();
      for (String file : looked) {
        String now = stamp(file);
        if (!now.equals(stamps.put(file, now))) {
          changed.add(file);
        }
      }
      if (!changed.isEmpty()) {
        return changed;
      }
    }
  }

  private static String stamp(String file) {
    try {
      Path path = Path.of(file);
      return Files.getLastModifiedTime(path) + " " + Files.size(path);
    } catch (IOException e) {
      return "gone"; // an editor may replace it just now
    }
  }
}
