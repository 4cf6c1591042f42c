package bufferstop.load;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.Tree;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** Reads the files of one project and keeps the digest of all of them. */
final class ProjectFiles {
  private static final long GREATEST = 3_000_000;

  private final Diagnostics problems;
  private final MessageDigest digest;

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
    String shown = file.toString().replace('\\', '/');
    try {
      if (Files.size(file) > GREATEST) {
        problems.add(
            Diagnostic.error(named, "`" + shown + "` is larger than 3 MB")
                .help("move sections to files of their own"));
        return null;
      }
      byte[] bytes = Files.readAllBytes(file);
      digest.update(bytes);
      String text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
      return YamlSource.read(shown, text.replace("\r\n", "\n"), problems);
    } catch (CharacterCodingException e) {
      problems.add(Diagnostic.error(named, "`" + shown + "` is not UTF-8 text"));
    } catch (IOException e) {
      problems.add(
          Diagnostic.error(named, "`" + shown + "` cannot be read")
              .expected("a readable file")
              .help("check the path; it is taken from the folder of the file that names it"));
    }
    return null;
  }

  /** A section as it stands, or, when it is a single value, the tree of the file it names. */
  Tree section(Tree tree) {
    if (!(tree instanceof Tree.Scalar scalar) || scalar.value().isEmpty()) {
      return tree;
    }
    return read(beside(new Name(scalar.value(), scalar.position())), scalar.position());
  }

  /** The path a name in a file means: taken from that file's folder. */
  static Path beside(Name name) {
    Path folder = Path.of(name.position().file()).getParent();
    Path path = Path.of(name.text());
    return folder == null ? path.normalize() : folder.resolve(path).normalize();
  }

  /** SHA-256 over every file read so far, lower-case hex. */
  String sha256() {
    return HexFormat.of().formatHex(digest.digest());
  }
}
