package bufferstop.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.model.Fault.Place;
import bufferstop.rig.Workbench;
import bufferstop.spi.Port;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SuppliesTest {
  private static final String PROJECT =
      """
      project: Supplies
      scan: T#1ms
      controller:
        inputs:
          a: {type: BOOL, supply: dc24}
          b: {type: BOOL, supply: dc48}
          c: {type: BOOL}
        outputs:
          q: {type: BOOL, supply: dc24}
          r: {type: BOOL, supply: dc48}
          s: {type: BOOL, supply: dc24}
        logic: q := TRUE; r := TRUE; s := TRUE;
      supplies:
        dc24: {}
        dc48: {}
      plants:
        p: {model: script, with: {}}
      circuits:
        relay: s
      wiring:
        - {from: p.on, to: a}
        - {from: p.on, to: b}
        - {from: p.on, to: c}
        - {from: q, to: p.q}
        - {from: r, to: p.r}
        - {from: circuits.relay, to: p.s}
      """;

  @TempDir Path folder;

  private Workbench bench() {
    ScriptedModel model =
        new ScriptedModel("script", p -> p.out[0] = 1)
            .input(Port.contact("q", "").orElse(0))
            .input(Port.contact("r", "").orElse(0))
            .input(Port.contact("s", "").orElse(0))
            .output(Port.contact("on", ""));
    return Workbench.with(folder, PROJECT, model).scan(3);
  }

  private static String fed(Workbench bench) {
    StringBuilder fed = new StringBuilder();
    for (String name : new String[] {"a", "b", "c", "p.q", "p.r", "p.s", "supplies.dc24"}) {
      fed.append(bench.bool(name) ? name + " " : "");
    }
    return fed.toString();
  }

  @Test
  void takeTheirOwnPointsAndNoOthers() {
    Workbench bench = bench();
    assertEquals("a b c p.q p.r p.s supplies.dc24 ", fed(bench));
    assertEquals("b c p.r ", fed(bench.supplyLost("dc24").scan(2)));
  }

  @Test
  void giveThemBack() {
    Workbench bench = bench().supplyLost("DC24").scan(2).clear(Place.SUPPLY, "dc24").scan(2);
    assertEquals("a b c p.q p.r p.s supplies.dc24 ", fed(bench));
  }

  // Source: 24 V lost: all fall, rail-and-sensors 8.3, row common cause [project choice].
  @ParameterizedTest
  @ValueSource(strings = {"short", "inverted", "stuck", "delay", "chatter"})
  void leaveNothingOnAFaultyWireEither(String mode) {
    Workbench bench = bench().wireFault("a", mode).scan(2).supplyLost("dc24").scan(1);
    assertEquals("0".repeat(200), bench.record("a", 200));
  }

  @Test
  void leaveTheFaultOfAWireWhenTheyComeBack() {
    Workbench bench = bench().supplyLost("dc24").scan(2).wireFault("a", "open");
    assertEquals("000", bench.clear(Place.SUPPLY, "dc24").scan(1).record("a", 3));
  }
}
