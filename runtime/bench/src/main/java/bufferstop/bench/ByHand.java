package bufferstop.bench;

import java.io.IOException;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.tools.JavaCompiler;
import javax.tools.ToolProvider;

/** Compiles the Java of a {@link ScanProgram}. */
final class ByHand {
  private ByHand() {}

  /** The controller of the source, compiled in the folder by the compiler of this JDK. */
  static Controller compile(String source, Path folder) throws IOException {
    Path file = Files.createDirectories(folder.resolve("made")).resolve("ByHand.java");
    Files.writeString(file, source);
    JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
    List<String> options =
        List.of("-cp", System.getProperty("java.class.path"), "-d", folder.toString());
    boolean good =
        compiler
            .getTask(
                null,
                null,
                null,
                options,
                null,
                compiler.getStandardFileManager(null, null, null).getJavaFileObjects(file))
            .call();
    if (!good) {
      throw new IOException("the generated Java does not compile: " + file);
    }
    try {
      URLClassLoader loader = new URLClassLoader(new URL[] {folder.toUri().toURL()});
      return (Controller) loader.loadClass("made.ByHand").getConstructor().newInstance();
    } catch (ReflectiveOperationException e) {
      throw new IOException(e);
    }
  }
}
