package bufferstop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.core.domain.Dependency;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** The rooms of the product, who may use whom, and what some of them must never touch. */
class RoomsTest {
  private static final JavaClasses PRODUCT =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .importPackages("bufferstop");

  private static final Map<String, Set<String>> MAY_USE =
      Map.ofEntries(
          Map.entry("spi", Set.of()),
          Map.entry("railway", Set.of("spi")),
          Map.entry("mixer", Set.of("spi")),
          Map.entry("feeder", Set.of("spi")),
          Map.entry("process", Set.of("spi")),
          Map.entry("model", Set.of()),
          Map.entry("st", Set.of("model")),
          Map.entry("load", Set.of("model", "st")),
          Map.entry("image", Set.of("model")),
          Map.entry("blocks", Set.of("model", "st")),
          Map.entry("program", Set.of("model", "st", "blocks", "image")),
          Map.entry("plant", Set.of("model", "st", "image", "spi")),
          Map.entry("engine", Set.of("model", "image", "program", "plant")),
          Map.entry("modbus", Set.of("model", "image")),
          Map.entry("trace", Set.of("model", "image")),
          Map.entry("retention", Set.of("model", "image")),
          Map.entry("billing", Set.of("model")),
          Map.entry("scenario", Set.of("model", "st", "image", "trace")),
          Map.entry(
              "rig",
              Set.of(
                  "model",
                  "st",
                  "image",
                  "program",
                  "plant",
                  "engine",
                  "modbus",
                  "trace",
                  "retention",
                  "billing",
                  "scenario")),
          Map.entry("report", Set.of("model", "engine", "billing", "scenario", "rig")),
          Map.entry(
              "cli",
              Set.of(
                  "model",
                  "st",
                  "load",
                  "image",
                  "plant",
                  "engine",
                  "modbus",
                  "trace",
                  "retention",
                  "billing",
                  "scenario",
                  "rig",
                  "report")));

  /** Rooms whose code runs in a scan, a wire or a plant. */
  private static final Set<String> DETERMINISTIC =
      Set.of(
          "st", "blocks", "image", "program", "plant", "trace", "railway", "mixer", "feeder",
          "process");

  private static final Set<String> TRANSCENDENTAL =
      Set.of(
          "sin", "cos", "tan", "asin", "acos", "atan", "atan2", "exp", "log", "log10", "pow",
          "cbrt", "sinh", "cosh", "tanh", "hypot", "expm1", "log1p");

  private static final int FEWEST_CLASSES = 200;

  @Test
  void enoughClassesWereSeen() {
    assertTrue(PRODUCT.size() >= FEWEST_CLASSES, "only " + PRODUCT.size() + " classes");
    assertEquals(MAY_USE.keySet(), roomsSeen());
  }

  private static Set<String> roomsSeen() {
    return PRODUCT.stream()
        .map(RoomsTest::room)
        .filter(r -> !r.isEmpty() && !r.equals("testkit"))
        .collect(Collectors.toCollection(TreeSet::new));
  }

  /** The room of a class of the product, or an empty string. */
  private static String room(JavaClass type) {
    String[] parts = type.getPackageName().split("\\.");
    return parts.length > 1 && parts[0].equals("bufferstop") ? parts[1] : "";
  }

  @Test
  void everyRoomUsesOnlyThoseItMay() {
    List<String> wrong =
        PRODUCT.stream()
            .flatMap(c -> c.getDirectDependenciesFromSelf().stream())
            .filter(d -> !isAllowed(room(d.getOriginClass()), room(d.getTargetClass())))
            .map(Dependency::getDescription)
            .toList();
    assertEquals(List.of(), wrong);
  }

  private static boolean isAllowed(String from, String to) {
    return to.isEmpty() || from.equals(to) || MAY_USE.getOrDefault(from, Set.of()).contains(to);
  }

  @Test
  void nothingInAScanReadsAClockOrOrdersByChance() {
    Set<String> forbidden =
        Set.of(
            "java.util.HashMap",
            "java.util.HashSet",
            "java.util.Random",
            "java.util.SplittableRandom",
            "java.util.concurrent.ThreadLocalRandom",
            "java.lang.Thread",
            "java.util.Date");
    List<String> wrong =
        PRODUCT.stream()
            .filter(c -> DETERMINISTIC.contains(room(c)))
            .flatMap(c -> c.getAccessesFromSelf().stream())
            .filter(
                a -> forbidden.contains(owner(a)) && !isSpinHint(a) || isClock(a) || isInexact(a))
            .map(JavaAccess::getDescription)
            .toList();
    assertEquals(List.of(), wrong);
  }

  private static String owner(JavaAccess<?> access) {
    return access.getTargetOwner().getName();
  }

  private static boolean isSpinHint(JavaAccess<?> access) {
    return access.getTarget().getName().equals("onSpinWait");
  }

  private static boolean isClock(JavaAccess<?> access) {
    String name = access.getTarget().getName();
    return owner(access).startsWith("java.time.")
        || owner(access).equals("java.lang.System")
            && (name.equals("nanoTime") || name.equals("currentTimeMillis"));
  }

  /** {@link Math} may differ from machine to machine in these; {@link StrictMath} may not. */
  private static boolean isInexact(JavaAccess<?> access) {
    return owner(access).equals("java.lang.Math")
        && TRANSCENDENTAL.contains(access.getTarget().getName());
  }

  @Test
  void onlyCommandsPrintOrEndTheProcess() {
    List<String> wrong =
        PRODUCT.stream()
            .filter(c -> !room(c).equals("cli"))
            .flatMap(c -> c.getAccessesFromSelf().stream())
            .filter(a -> isStream(a) || isEnd(a))
            .map(JavaAccess::getDescription)
            .toList();
    assertEquals(List.of(), wrong);
  }

  private static boolean isStream(JavaAccess<?> access) {
    String name = access.getTarget().getName();
    return owner(access).equals("java.lang.System") && (name.equals("out") || name.equals("err"));
  }

  private static boolean isEnd(JavaAccess<?> access) {
    String name = access.getTarget().getName();
    return owner(access).equals("java.lang.System") && name.equals("exit")
        || owner(access).equals("java.lang.Runtime") && name.equals("halt");
  }

  @Test
  void noClassIsNamedForNothing() {
    List<String> wrong =
        PRODUCT.stream()
            .map(JavaClass::getSimpleName)
            .filter(n -> n.matches(".*(Manager|Helper|Util|Utils|Impl)"))
            .toList();
    assertEquals(List.of(), wrong);
  }
}
