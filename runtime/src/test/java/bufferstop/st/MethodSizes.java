package bufferstop.st;

import java.io.ByteArrayInputStream;
import java.io.DataInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;

/**
 * Reads from a class file how long the code of its methods is. Source: Java Virtual Machine
 * Specification, chapter 4 [from memory, not re-read].
 */
final class MethodSizes {
  private MethodSizes() {}

  /** Bytes of code of every method. */
  static List<Integer> of(byte[] classFile) {
    try (DataInputStream in = new DataInputStream(new ByteArrayInputStream(classFile))) {
      in.skipNBytes(8); // magic and version
      List<String> names = constants(in);
      in.skipNBytes(6); // access, this, super
      in.skipNBytes(2L * in.readUnsignedShort()); // interfaces
      if (in.readUnsignedShort() != 0) {
        throw new IllegalStateException("generated code has no fields");
      }
      List<Integer> sizes = new ArrayList<>();
      for (int methods = in.readUnsignedShort(); methods > 0; methods--) {
        in.skipNBytes(6); // access, name, descriptor
        for (int attributes = in.readUnsignedShort(); attributes > 0; attributes--) {
          String name = names.get(in.readUnsignedShort());
          byte[] content = new byte[in.readInt()];
          in.readFully(content);
          if (name.equals("Code")) {
            sizes.add(new DataInputStream(new ByteArrayInputStream(content, 4, 4)).readInt());
          }
        }
      }
      return sizes;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The constants that are text, by index. */
  private static List<String> constants(DataInputStream in) throws IOException {
    int count = in.readUnsignedShort();
    List<String> names = new ArrayList<>(List.of(""));
    while (names.size() < count) {
      int tag = in.readUnsignedByte();
      names.add(tag == 1 ? in.readUTF() : "");
      switch (tag) {
        case 1 -> {}
        case 5, 6 -> { // long and double take two places
          in.skipNBytes(8);
          names.add("");
        }
        case 7, 8, 16 -> in.skipNBytes(2);
        default -> in.skipNBytes(4);
      }
    }
    return names;
  }
}
