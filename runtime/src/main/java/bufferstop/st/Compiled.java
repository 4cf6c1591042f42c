package bufferstop.st;

import java.lang.invoke.MethodHandles;
import java.lang.ref.SoftReference;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Statements as bytecode of the Java machine. The code keeps nothing: all state is in the cells, so
 * it is shared by every run of a process that compiles the same statements over the same cells. It
 * does to the cells exactly what {@link Statement#run} does.
 */
public final class Compiled {
  private static final int CLASS_ROOM =
      150_000; // the constant pool of a class holds 65,535 entries

  /** What a generated class implements. */
  interface Part {
    void run(long[] cells);
  }

  /** Code in use, by the digest of its class file. */
  private static final Map<String, SoftReference<Part>> KNOWN = new TreeMap<>();

  private final Part[] parts;

  private Compiled(List<Part> parts) {
    this.parts = parts.toArray(Part[]::new);
  }

  /** Compiles statements. */
  public static Compiled of(Statement statement) {
    List<Part> parts = new ArrayList<>();
    for (Statement piece : pieces(statement)) {
      piece.fit();
      parts.add(part(ClassOutput.of(piece)));
    }
    return new Compiled(parts);
  }

  /** Runs the statements once. Allocates nothing. */
  public void run(long[] cells) {
    for (Part part : parts) {
      part.run(cells);
    }
  }

  Part firstPart() {
    return parts[0];
  }

  /** Cuts a long list of statements into lists that each fit a class. */
  private static List<Statement> pieces(Statement statement) {
    if (!(statement instanceof Statement.Sequence list)) {
      return List.of(statement);
    }
    List<Statement> pieces = new ArrayList<>();
    List<Statement> open = new ArrayList<>();
    int bytes = 0;
    for (Statement one : list.parts()) {
      one.fit();
      if (bytes + one.allBytes() > CLASS_ROOM && !open.isEmpty()) {
        pieces.add(Statement.sequence(open));
        open.clear();
        bytes = 0;
      }
      open.add(one);
      bytes += one.allBytes();
    }
    pieces.add(Statement.sequence(open));
    return pieces;
  }

  private static synchronized Part part(byte[] classFile) {
    String digest = digest(classFile);
    SoftReference<Part> known = KNOWN.get(digest);
    Part part = known == null ? null : known.get();
    if (part == null) {
      part = define(classFile);
      KNOWN.put(digest, new SoftReference<>(part));
      KNOWN.values().removeIf(reference -> reference.get() == null);
    }
    return part;
  }

  private static Part define(byte[] classFile) {
    try {
      MethodHandles.Lookup lookup = MethodHandles.lookup().defineHiddenClass(classFile, true);
      return (Part) lookup.lookupClass().getDeclaredConstructor().newInstance();
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException("generated code cannot be loaded", e);
    }
  }

  private static String digest(byte[] classFile) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(classFile));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e); // every Java platform has it
    }
  }
}
