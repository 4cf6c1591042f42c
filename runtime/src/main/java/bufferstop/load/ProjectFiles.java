package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Position;
import bufferstop.model.Project.Source;
import bufferstop.model.Tree;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;

/** Reads the files of one project and keeps the digest of all of them. */
final class ProjectFiles {
  private static final long GREATEST = 3_000_000;
  private static final long GREATEST_TABLE = 100_000_000;

  private final Diagnostics problems;
  private final MessageDigest digest;
  private final List<Source> sources = new ArrayList<>();

  ProjectFiles(Diagnostics problems) {
    this.problems = problems;
    try {
      digest = MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e); // every Java platform has it
    }
  }

  /** The tree of a file, or null after a diagnostic shown at {@code named}. */
  Tree read(Path file, Position named) {
    String text = text(file, named, GREATEST);
    return text == null
        ? null
        : YamlSource.read(file.toString().replace('\\', '/'), withLineFeeds(text), problems);
  }

  /** The text of a file that a file names, from that file's folder; null after a diagnostic. */
  String text(Name name) {
    Path file = beside(name);
    if (file == null) {
      problems.add(
          Diagnostic.error(
              Code.BAD_FILE_NAME, name.position(), "this cannot be the name of a file"));
    }
    return file == null ? null : text(file, name.position(), GREATEST_TABLE);
  }

  /** Every file that was read, in the order of reading. */
  List<Source> sources() {
    return List.copyOf(sources);
  }

  private String text(Path file, Position named, long greatest) {
    String shown = file.toString().replace('\\', '/');
    try {
      if (Files.size(file) > greatest) {
        problems.add(
            Diagnostic.error(
                    Code.UNREADABLE_FILE,
                    named,
                    "`" + shown + "` is larger than " + greatest / 1_000_000 + " MB")
                .help("move sections to files of their own"));
        return null;
      }
      byte[] bytes = Files.readAllBytes(file);
      digest.update(bytes);
      String text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
      sources.add(new Source(shown, text));
      return text;
    } catch (CharacterCodingException e) {
      problems.add(
          Diagnostic.error(Code.UNREADABLE_FILE, named, "`" + shown + "` is not UTF-8 text"));
    } catch (NoSuchFileException e) {
      problems.add(
          Diagnostic.error(Code.NO_SUCH_FILE, named, "there is no file `" + shown + "`")
              .help(NearNames.question(file.getFileName().toString(), neighbours(file))));
    } catch (IOException e) {
      String found = Files.isDirectory(file) ? "is a folder" : "cannot be read";
      problems.add(
          Diagnostic.error(Code.NO_SUCH_FILE, named, "`" + shown + "` " + found)
              .expected("a readable file"));
    }
    return null;
  }

  /** Without a byte order mark; line ends of every kind become line feeds. */
  private static String withLineFeeds(String text) {
    String bare = text.startsWith("\uFEFF") ? text.substring(1) : text;
    return bare.replace("\r\n", "\n").replace('\r', '\n');
  }

  private static List<String> neighbours(Path file) {
    Path folder = file.toAbsolutePath().getParent();
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(f -> f.getFileName().toString()).sorted().toList();
    } catch (IOException e) {
      return List.of(); // no such folder: nothing to suggest
    }
  }

  /**
   * A section as it stands, or, when it is a single value, the tree of the file it names; null
   * after a diagnostic.
   */
  Tree section(Tree tree) {
    if (!(tree instanceof Tree.Scalar scalar) || scalar.value().isEmpty()) {
      return tree;
    }
    Path file = beside(new Name(scalar.value(), scalar.position()));
    if (file == null) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_FILE_NAME, scalar.position(), "this cannot be the name of a file")
              .expected("a section, or the name of the file that holds it"));
    }
    return file == null ? null : read(file, scalar.position());
  }

  /** The path a name in a file means, taken from that file's folder; null when it is no path. */
  static Path beside(Name name) {
    try {
      Path folder = Path.of(name.position().file()).getParent();
      Path path = Path.of(name.text());
      return folder == null ? path.normalize() : folder.resolve(path).normalize();
    } catch (InvalidPathException e) {
      return null;
    }
  }

  /** SHA-256 over every file read so far, lower-case hex. */
  String sha256() {
    return HexFormat.of().formatHex(digest.digest());
  }
}
