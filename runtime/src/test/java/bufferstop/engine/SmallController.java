package bufferstop.engine;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;

import bufferstop.image.WriteRequest;
import bufferstop.load.ProjectLoader;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Project;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.plant.PlantCatalog;
import bufferstop.program.Interpreted;
import bufferstop.retention.RetainedValue;
import bufferstop.rig.Rig;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/**
 * A controller put together from its YAML as a run would, and scanned by hand at times of the
 * test's choice. Operator points that do not fall back stand for whatever drives it.
 */
public final class SmallController {
  private static final long MILLI = 1000;

  private final Rig rig; // its program compiled, as a run has it
  private final Rig oracle; // the same, its program run as it stands
  private WriteRequest twin; // the request offered last, for the oracle

  private SmallController(Rig rig, Rig oracle) {
    this.rig = rig;
    this.oracle = oracle;
    oracle.engine().prepare(Interpreted::prepare);
  }

  /**
   * Puts a controller together.
   *
   * @param controller what stands under {@code controller:}
   */
  public static SmallController of(String controller) {
    return ofProject(header(controller));
  }

  /**
   * Puts a project together.
   *
   * @param project the text of project.yaml
   */
  public static SmallController ofProject(String project) {
    Diagnostics problems = new Diagnostics();
    Rig rig = build(project, problems);
    assertEquals(List.of(), problems.sorted().stream().filter(d -> isError(d)).toList());
    return new SmallController(rig, build(project, new Diagnostics())); // places count from 1
  }

  /** Puts a project together from several files, the last of them project.yaml. */
  public static SmallController ofFiles(List<String> names, List<String> texts) {
    Diagnostics problems = new Diagnostics();
    Rig rig = build(names, texts, problems);
    assertEquals(List.of(), problems.sorted());
    return new SmallController(rig, build(names, texts, new Diagnostics()));
  }

  /** First lines of what is reported of a controller. */
  public static List<String> problemsOf(String controller) {
    Diagnostics problems = new Diagnostics();
    build(header(controller), problems);
    return problems.sorted().stream().map(Diagnostic::message).toList();
  }

  private static boolean isError(Diagnostic problem) {
    return problem.severity() == Diagnostic.Severity.ERROR;
  }

  private static String header(String controller) {
    return "project: small\nscan: T#1ms\ncontroller:\n" + controller.indent(2);
  }

  private static Rig build(String project, Diagnostics problems) {
    return build(List.of("project.yaml"), List.of(project), problems);
  }

  private static Rig build(List<String> names, List<String> texts, Diagnostics problems) {
    try {
      Path folder = Files.createTempDirectory("small-controller");
      try {
        for (int i = 0; i < names.size(); i++) {
          Files.writeString(folder.resolve(names.get(i)), texts.get(i));
        }
        Project read = ProjectLoader.read(folder, problems);
        return Rig.build(read, PlantCatalog.find(List.of(), problems), 1, problems);
      } finally {
        for (String name : names) {
          Files.deleteIfExists(folder.resolve(name));
        }
        Files.delete(folder);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The parts, for tests of what lies around the scan. */
  public Rig rig() {
    return rig;
  }

  /** One scan, one period after the last. */
  public SmallController scan() {
    scan(0);
    return this;
  }

  /** One scan at a time that is a multiple of the period; the periods before it are skipped. */
  public SmallController scanAt(long millis) {
    long periods = (millis * MILLI - rig.engine().nowMicros()) / rig.project().periodMicros();
    scan(periods - 1);
    assertEquals(millis * MILLI, rig.engine().nowMicros());
    return this;
  }

  /** Switches the controller off for some scans, then on. */
  public SmallController restart(boolean cold, int scansOff) {
    List<RetainedValue> kept = cold ? List.of() : rig.retained().take(rig.engine().cells());
    rig.engine().switchOff();
    oracle.engine().switchOff();
    for (int i = 0; i < scansOff; i++) {
      scan(0);
    }
    rig.engine().switchOn(cells -> rig.retained().restore(cells, kept, new ArrayList<>()));
    oracle.engine().switchOn(cells -> {});
    return this;
  }

  /** Both must do the same to every cell. */
  private void scan(long skipped) {
    System.arraycopy(
        rig.engine().cells(), 0, oracle.engine().cells(), 0, rig.engine().cells().length);
    oracle.engine().scan(skipped);
    rig.engine().scan(skipped);
    assertArrayEquals(oracle.engine().cells(), rig.engine().cells(), "compiled and as it stands");
  }

  /** Writes a value in the image; TIME in milliseconds, other types as they are carried. */
  public SmallController set(String name, long value) {
    Symbol symbol = symbol(name);
    rig.engine().cells()[symbol.index()] = symbol.type() == Type.TIME ? value * MILLI : value;
    return this;
  }

  /** Offers a write of one point, as an HMI would. */
  public WriteRequest offer(String name, long bits) {
    WriteRequest request =
        new WriteRequest(new int[] {symbol(name).index()}, new long[] {bits}, new long[1]);
    rig.writes().offer(request);
    twin = new WriteRequest(new int[] {symbol(name).index()}, new long[] {bits}, new long[1]);
    oracle.writes().offer(twin);
    return request;
  }

  /** Withdraws the request offered last. Returns whether it will never be taken. */
  public boolean withdraw(WriteRequest request) {
    return request.withdraw() && twin.withdraw();
  }

  /** A value as the field sees it; TIME in milliseconds. */
  public long get(String name) {
    return read(symbol(name));
  }

  /** An output as the program sees it. */
  public long program(String output) {
    return read(rig.layout().controller().find(output));
  }

  /** Forces a point until it is freed. */
  public SmallController force(String name, long bits) {
    rig.engine().forces().set(symbol(name).index(), bits);
    oracle.engine().forces().set(symbol(name).index(), bits);
    return this;
  }

  /** Ends the force of a point. */
  public SmallController free(String name) {
    rig.engine().forces().clear(symbol(name).index());
    oracle.engine().forces().clear(symbol(name).index());
    return this;
  }

  /** What is TRUE among the names that a pattern with one star fits, as {@code A,B} or a dash. */
  public String trueOf(String pattern) {
    int star = pattern.indexOf('*');
    String head = pattern.substring(0, star);
    String tail = pattern.substring(star + 1);
    String names =
        rig.layout().symbols().stream()
            .filter(s -> s.name().length() > head.length() + tail.length())
            .filter(s -> s.name().startsWith(head) && s.name().endsWith(tail))
            .filter(s -> read(s) != 0)
            .map(s -> s.name().substring(star, s.name().length() - tail.length()))
            .collect(Collectors.joining(","));
    return names.isEmpty() ? "-" : names;
  }

  /** The symbol of a name, which must be there. */
  Symbol symbol(String name) {
    Symbol symbol = rig.layout().field().find(name);
    assertNotNull(symbol, name);
    return symbol;
  }

  private long read(Symbol symbol) {
    long bits = rig.engine().cells()[symbol.index()];
    return symbol.type() == Type.TIME ? bits / MILLI : bits;
  }
}
