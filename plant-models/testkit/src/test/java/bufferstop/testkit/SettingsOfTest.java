package bufferstop.testkit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.spi.Parameter;
import bufferstop.spi.Settings;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SettingsOfTest {
  private static final List<Parameter> SCHEMA =
      List.of(
          Parameter.number("volts", "V", 0, 20, "Supply").orElse("12"),
          Parameter.integer("count", 1, 9, "How many"),
          Parameter.choice("kind", List.of("red", "blue"), "Which").orElse("red"),
          Parameter.bool("on", "Whether").orElse("FALSE"),
          Parameter.text("label", "Words").orElse(""),
          Parameter.item("end", List.of(Parameter.number("face", "m", 0, 1, "Face")), "End")
              .orElse(""),
          Parameter.list("rows", List.of(Parameter.integer("row", 0, 9, "Row")), "Rows"),
          Parameter.named("beams", List.of(Parameter.number("at", "m", 0, 9, "At")), "Beams"));

  @Test
  void readsEveryKind() {
    Settings s =
        SettingsOf.map(
            SCHEMA,
            Map.of(
                "volts",
                9,
                "count",
                "3",
                "kind",
                "blue",
                "on",
                true,
                "label",
                "a",
                "end",
                Map.of("face", 0.5),
                "rows",
                List.of(Map.of("row", 1), Map.of("row", 2)),
                "beams",
                Map.of("pit", Map.of("at", 2))));
    assertEquals(9, s.number("volts"));
    assertEquals(3, s.integer("count"));
    assertEquals("blue", s.text("kind"));
    assertTrue(s.bool("on"));
    assertEquals("a", s.text("label"));
    assertEquals(0.5, s.item("end").number("face"));
    assertEquals(2, s.list("rows").get(1).integer("row"));
    assertEquals(2, s.named("beams").get("pit").number("at"));
  }

  @Test
  void fillsInDefaultsAndTellsThemFromGivenValues() {
    Settings s = SettingsOf.text(SCHEMA, "count: 1\n");
    assertEquals(12, s.number("volts"));
    assertEquals("red", s.text("kind"));
    assertFalse(s.bool("on"));
    assertEquals(List.of(), s.list("rows"));
    assertFalse(s.has("end"));
    assertTrue(s.has("count"));
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "'volts: 1', count: required but not given",
    "'count: 10', count: 10 is not within",
    "'count: 1.5', count: 1.5 is not a whole number",
    "'count: x', count: not a number: x",
    "'count: 1|kind: green', kind: green is not one of",
    "'count: 1|on: 1', on: 1 is not one of",
    "'count: 1|colour: red', colour: no such parameter",
    "'count: 1|end: 3', 'end: expected a Map, found 3'",
    "'count: 1|beams:|  pit:|    at: 10', beams.pit.at: 10 is not within",
    "'count: 1|count: 2', line 2: `count` is given twice",
    "'count 1', line 1: not `key: value`"
  })
  void refusesWhatTheSchemaDoesNotAllow(String text, String message) {
    IllegalArgumentException e =
        assertThrows(
            IllegalArgumentException.class, () -> SettingsOf.text(SCHEMA, text.replace('|', '\n')));
    assertTrue(e.getMessage().startsWith(message), e.getMessage());
  }

  @Test
  void refusesToGiveWhatTheSchemaDoesNotHold() {
    Settings s = SettingsOf.text(SCHEMA, "count: 1 # one\n\n");
    assertThrows(IllegalArgumentException.class, () -> s.number("count"));
    assertThrows(IllegalArgumentException.class, () -> s.number("amps"));
    assertThrows(IllegalArgumentException.class, () -> s.item("end"));
  }

  @Test
  void readsBracesBracketsAndDashes() {
    String text =
        """
        count: 1
        end: {face: 0.5} # comment
        rows:
          - {row: 1}
          - {row: 2}
        beams:
          pit: {at: 2}
          far:
            at: 3
        """;
    Settings s = SettingsOf.text(SCHEMA, text);
    assertEquals(0.5, s.item("end").number("face"));
    assertEquals(2, s.list("rows").get(1).integer("row"));
    assertEquals(3, s.named("beams").get("far").number("at"));
    Settings inBrackets = SettingsOf.text(SCHEMA, "count: 1\nrows: [{row: 4}, {row: 5}]\n");
    assertEquals(5, inBrackets.list("rows").get(1).integer("row"));
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "'end: {face: 0.5', line 1: cannot read",
    "'end: {face: 0.5} x', line 1: cannot read",
    "'end: {face 0.5}', line 1: cannot read",
    "'end: {face: 1, face: 1}', line 1: `face` is given twice"
  })
  void refusesBracesItCannotRead(String text, String message) {
    IllegalArgumentException e =
        assertThrows(IllegalArgumentException.class, () -> SettingsOf.text(SCHEMA, text));
    assertTrue(e.getMessage().startsWith(message), e.getMessage());
  }
}
