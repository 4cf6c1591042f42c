package bufferstop.retention;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.CRC32C;

/**
 * The file that keeps values between runs. A new state is written beside it and forced to the disk,
 * then the one before becomes {@code .old} and the new one takes the name, each by an atomic
 * rename: whenever the process is killed, the newest of the files that are whole is the last state
 * or the one before. Text in UTF-8:
 *
 * <pre>
 * BSRETAIN1 number-of-the-state moment-in-ms-since-1970
 * name TYPE bits-in-hex ...      a line for each thing, its cells in their order
 * crc CRC-32C-of-all-lines-before-in-hex
 * </pre>
 */
public final class RetentionFile {
  private static final String MAGIC = "BSRETAIN1";

  private final Path file;

  /**
   * What was found.
   *
   * @param number of the state, rising with every save
   * @param atMillis when it was saved, milliseconds since 1970
   */
  public record State(long number, long atMillis, List<RetainedValue> values) {}

  public RetentionFile(Path file) {
    this.file = file;
  }

  /** The file. */
  public Path path() {
    return file;
  }

  /**
   * Saves a state; when this returns it is on the disk.
   *
   * @throws IOException when it cannot be written; the state before is then untouched
   */
  public void save(State state) throws IOException {
    Path fresh = beside(".new");
    try (FileChannel channel =
        FileChannel.open(
            fresh,
            StandardOpenOption.CREATE,
            StandardOpenOption.WRITE,
            StandardOpenOption.TRUNCATE_EXISTING)) {
      ByteBuffer bytes = ByteBuffer.wrap(text(state).getBytes(StandardCharsets.UTF_8));
      while (bytes.hasRemaining()) {
        channel.write(bytes);
      }
      channel.force(true);
    }
    if (Files.exists(file)) {
      Files.move(file, beside(".old"), StandardCopyOption.ATOMIC_MOVE);
    }
    Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE);
    forceFolder();
  }

  private Path beside(String suffix) {
    return file.resolveSibling(file.getFileName() + suffix);
  }

  /** Makes the renames last; not every file system can, and then it does so by itself. */
  private void forceFolder() {
    try (FileChannel folder =
        FileChannel.open(file.toAbsolutePath().getParent(), StandardOpenOption.READ)) {
      folder.force(true);
    } catch (IOException e) {
      // the content is forced already; only the name may still be the older one
    }
  }

  private static String text(State state) {
    StringBuilder out = new StringBuilder();
    out.append("%s %d %d\n".formatted(MAGIC, state.number, state.atMillis));
    state.values.forEach(value -> out.append(value.text()).append('\n'));
    return out.append(lastLine(out.toString())).toString();
  }

  private static long crc(String text) {
    CRC32C crc = new CRC32C();
    crc.update(text.getBytes(StandardCharsets.UTF_8));
    return crc.getValue();
  }

  /**
   * The newest state that is whole. A file that is not is kept aside under a name of its own.
   *
   * @param said takes a line about each such file
   * @return null when there is none
   * @throws IOException when a file that is there cannot be read or moved
   */
  public State load(List<String> said) throws IOException {
    State newest = null;
    for (Path candidate : List.of(file, beside(".new"), beside(".old"))) {
      State state = read(candidate, said);
      boolean newer = state != null && (newest == null || state.number > newest.number);
      newest = newer ? state : newest;
    }
    return newest;
  }

  private State read(Path candidate, List<String> said) throws IOException {
    byte[] bytes;
    try {
      bytes = Files.readAllBytes(candidate);
    } catch (NoSuchFileException e) {
      return null;
    }
    State state = parsed(new String(bytes, StandardCharsets.UTF_8));
    boolean unfinished = candidate.equals(beside(".new"));
    if (state == null && !unfinished) { // one that was being written is no loss
      said.add(candidate + " is damaged; it is kept as " + aside(candidate).getFileName());
    }
    return state;
  }

  private static Path aside(Path damaged) throws IOException {
    for (int number = 1; ; number++) {
      Path free = damaged.resolveSibling(damaged.getFileName() + ".damaged-" + number);
      if (!Files.exists(free)) {
        return Files.move(damaged, free);
      }
    }
  }

  /** Null when the text is not whole. */
  private static State parsed(String text) {
    int last = text.lastIndexOf("crc ");
    if (last < 0 || !text.substring(last).equals(lastLine(text.substring(0, last)))) {
      return null;
    }
    List<String> lines = text.substring(0, last).lines().toList();
    String[] head = lines.isEmpty() ? new String[0] : lines.get(0).split(" ");
    if (head.length != 3 || !head[0].equals(MAGIC)) {
      return null;
    }
    List<RetainedValue> values = new ArrayList<>();
    for (String line : lines.subList(1, lines.size())) {
      RetainedValue value = RetainedValue.of(line);
      if (value == null) {
        return null;
      }
      values.add(value);
    }
    return new State(Long.parseLong(head[1]), Long.parseLong(head[2]), List.copyOf(values));
  }

  private static String lastLine(String before) {
    return "crc " + Long.toHexString(crc(before)) + "\n";
  }
}
