package bufferstop.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Fault;
import bufferstop.model.Fault.Place;
import bufferstop.model.Name;
import bufferstop.model.Position;
import bufferstop.model.SourceText;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Every mode on every kind of wire, with every kind of parameter. */
class FaultParametersTest {
  private static final Position HERE = Position.ofFile("test");
  private static final String OF_BOOL =
      "stuck, open, short, inverted, chatter, delay, missed, welded, not_closing";
  private static final String OF_QUANTITY = "stuck, open, delay, drift, noise, wrong_scale";

  private static List<Diagnostic> link(boolean bool, String mode, String value, long micros) {
    Diagnostics problems = new Diagnostics();
    Fault fault =
        new Fault(
            new Fault.Target(Place.WIRE, new Name("w", HERE)),
            new Name(mode, HERE),
            value == null ? null : SourceText.of(value),
            micros);
    WireRun wire = new WireRun("w", bool, new SeededStream(1, "wire.w"));
    Switch ready = new WireFaultLinker(problems).link(wire, fault, 1000);
    if (problems.hasErrors()) {
      assertNull(ready);
    } else {
      assertNotNull(ready);
    }
    return problems.sorted();
  }

  private static String said(boolean bool, String mode, String value, long micros) {
    List<Diagnostic> problems = link(bool, mode, value, micros);
    return problems.isEmpty() ? "fits" : problems.get(0).message();
  }

  @ParameterizedTest(name = "{0}: on a BOOL {1}, on a quantity {2}; {3}, {4}")
  @CsvSource({
    "stuck, fits, fits, may have a value, no time",
    "open, fits, fits, no value, no time",
    "short, fits, -, no value, no time",
    "inverted, fits, -, no value, no time",
    "chatter, fits, -, no value, may have a time",
    "delay, fits, fits, no value, may have a time",
    "missed, fits, -, may have a value, no time",
    "welded, fits, -, no value, no time",
    "not_closing, fits, -, no value, no time",
    "drift, -, fits, needs a value, no time",
    "noise, -, fits, needs a value, no time",
    "wrong_scale, -, fits, needs a value, no time",
  })
  void areCheckedOnEveryWire(String mode, String bool, String quantity, String value, String time) {
    checkWire(true, mode, bool, value, time);
    checkWire(false, mode, quantity, value, time);
  }

  private static void checkWire(boolean bool, String mode, String fits, String value, String time) {
    String amount = bool && mode.equals("stuck") ? "TRUE" : "1.0";
    if (fits.equals("fits")) {
      String with = value.equals("no value") ? "`" + mode + "` takes no `value`" : "fits";
      String without =
          value.equals("needs a value") ? "`" + mode + "` does not say how much" : "fits";
      String timed = time.equals("no time") ? "`" + mode + "` takes no time" : "fits";
      assertEquals(with, said(bool, mode, amount, 0));
      assertEquals(without, said(bool, mode, null, 0));
      assertEquals(timed, said(bool, mode, value.equals("no value") ? null : amount, 5000));
      return;
    }
    Diagnostic problem = link(bool, mode, amount, 0).get(0);
    assertEquals(
        "`%s` does not fit wire `w`, which carries %s"
            .formatted(mode, bool ? "a BOOL" : "a quantity"),
        problem.message());
    assertEquals(bool ? OF_BOOL : OF_QUANTITY, problem.expected());
  }

  @Test
  void coverEveryMode() {
    List<String> tabled =
        Stream.of(OF_BOOL, OF_QUANTITY).flatMap(s -> Stream.of(s.split(", "))).distinct().toList();
    List<String> modes = Stream.of(WireFaultMode.values()).map(WireFaultMode::word).toList();
    assertEquals(modes.stream().sorted().toList(), tabled.stream().sorted().toList());
  }

  @ParameterizedTest(name = "{0} with {1}: {2}")
  @CsvSource(
      delimiter = '|',
      nullValues = "-",
      value = {
        "missed | 0.0 | fits",
        "missed | 1.0 | fits",
        "missed | 1 | fits",
        "missed | 1.000001 | a chance of 1.000001",
        "missed | -0.5 | a chance of -0.5",
        "missed | TRUE | `TRUE` is BOOL",
        "stuck | 1 | `1` is INT",
        "MISSED | 0.5 | fits",
      })
  void haveValuesInTheirRange(String mode, String value, String message) {
    assertEquals(message, said(true, mode, value, 0));
  }

  @ParameterizedTest(name = "{0} with {1}: {2}")
  @CsvSource(
      delimiter = '|',
      value = {
        "stuck | TRUE | `TRUE` is BOOL",
        "drift | T#1s | `T#1s` is TIME",
        "drift | -0.01 | fits",
        "wrong_scale | 2 | fits",
      })
  void haveNumbersOnQuantities(String mode, String value, String message) {
    assertEquals(message, said(false, mode, value, 0));
  }

  @ParameterizedTest(name = "{0} of {1} us: {2}")
  @CsvSource({
    "delay, 60000000, fits",
    "delay, 60000001, `delay` with a time of T#1m0.001ms",
    "chatter, 60000001, `chatter` with a time of T#1m0.001ms",
  })
  void haveTimesUpToAMinute(String mode, long micros, String message) {
    assertEquals(message, said(true, mode, null, micros));
  }
}
