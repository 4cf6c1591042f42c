package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Serving.Permission;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Function 43/14. Source: Modbus Application Protocol V1.1b3, 6.21 [re-read]; the rows are numbered
 * as in the project's check table D.
 */
class IdentificationTest {
  private static final Map<Integer, String> BASIC =
      Map.of(0, "Company identification", 1, "Product code XX", 2, "V2.11");
  private static final String COMPANY =
      "00 16 43 6F 6D 70 61 6E 79 20 69 64 65 6E 74 69 66 69 63 61 74 69 6F 6E";
  private static final String PRODUCT = "01 0F 50 72 6F 64 75 63 74 20 63 6F 64 65 20 58 58";
  private static final String REVISION = "02 05 56 32 2E 31 31";

  private static Frames frames(Map<Integer, String> objects) {
    Bench bench = Bench.hundredOfEach();
    Unit plain = bench.unit(Bench.UNIT);
    Unit unit =
        new Unit(
            Bench.UNIT,
            plain.image(),
            plain.writes(),
            plain.snapshots(),
            new Identification(objects));
    return new Frames(bench::scan, 1000, unit);
  }

  /**
   * The printed example with its lengths counted; its conformity level is 01 there and 81 here,
   * since this server gives single objects too.
   */
  @Test
  void d1TheBasicStreamIsThePrintedOne() {
    assertEquals(
        "2B 0E 01 81 00 00 03 " + COMPANY + " " + PRODUCT + " " + REVISION,
        frames(BASIC).answer("2B 0E 01 00"));
  }

  @ParameterizedTest(name = "{0}: {1} is answered {2}")
  @CsvSource({
    "D2, 2B 0E 00 00, AB 03",
    "D2, 2B 0E 05 00, AB 03",
    "D2, 2B 0E FF 00, AB 03",
    "D3, 2B 0E 04 03, AB 02",
    "D3, 2B 0E 04 80, AB 02",
    "D6, 2B 0D 00 00, AB 01",
    "D6, 2B 00 01 00, AB 01",
    "D6, 2B 0F 01 00, AB 01",
    "one byte short, 2B 0E 01, AB 03",
    "one byte too many, 2B 0E 01 00 00, AB 03",
    "no MEI type, 2B, AB 03"
  })
  void isRefused(String row, String request, String answer) {
    assertEquals(answer, frames(BASIC).answer(request), row);
  }

  @Test
  void d4AStreamFromAnUnknownObjectBeginsAtTheBeginning() {
    Frames frames = frames(BASIC);
    String whole = frames.answer("2B 0E 01 00");
    assertEquals(whole, frames.answer("2B 0E 01 03"));
    assertEquals(whole, frames.answer("2B 0E 01 FF"));
    assertEquals("2B 0E 01 81 00 00 01 " + REVISION, frames.answer("2B 0E 01 02"));
  }

  @Test
  void d5AHigherLevelIsAnsweredAtTheServersOwn() {
    String objects = "03 " + COMPANY + " " + PRODUCT + " " + REVISION;
    assertEquals("2B 0E 03 81 00 00 " + objects, frames(BASIC).answer("2B 0E 03 00"));
    assertEquals("2B 0E 02 81 00 00 " + objects, frames(BASIC).answer("2B 0E 02 00"));
  }

  @Test
  void oneObjectComesAlone() {
    assertEquals("2B 0E 04 81 00 00 01 " + PRODUCT, frames(BASIC).answer("2B 0E 04 01"));
  }

  @Test
  void theConformityLevelIsThatOfTheHighestObject() {
    Map<Integer, String> regular = new TreeMap<>(BASIC);
    regular.put(6, "Tramway");
    assertTrue(frames(regular).answer("2B 0E 01 00").startsWith("2B 0E 01 82 00 00 03"));
    assertTrue(frames(regular).answer("2B 0E 02 00").startsWith("2B 0E 02 82 00 00 04"));
    regular.put(0x80, "Bench 3");
    assertTrue(frames(regular).answer("2B 0E 02 00").startsWith("2B 0E 02 83 00 00 04"));
    assertTrue(frames(regular).answer("2B 0E 03 00").startsWith("2B 0E 03 83 00 00 05"));
  }

  @Test
  void d7WhatDoesNotFitOneAnswerIsAskedForWithTheNextObject() {
    Map<Integer, String> objects = new TreeMap<>();
    for (int id : new int[] {0, 1, 2, 3, 6, 0x80, 0xFE, 0xFF}) {
      objects.put(id, (char) ('a' + id % 26) + "x".repeat(30 * (id % 9)));
    }
    Frames frames = frames(objects);
    Map<Integer, String> got = new TreeMap<>();
    int from = 0;
    int answers = 0;
    boolean more;
    do {
      byte[] answer = Bench.bytes(frames.answer("2B 0E 03 " + String.format("%02X", from)));
      assertTrue(answer.length <= 253, answer.length + " bytes");
      int at = 7;
      for (int i = 0; i < answer[6]; i++) {
        int length = answer[at + 1] & 0xFF;
        String text = new String(answer, at + 2, length, StandardCharsets.US_ASCII);
        assertEquals(null, got.put(answer[at] & 0xFF, text), "given twice");
        at += 2 + length;
      }
      assertEquals(answer.length, at);
      more = answer[4] == (byte) 0xFF;
      from = answer[5] & 0xFF;
      answers++;
    } while (more);
    assertEquals(objects, got);
    assertTrue(answers > 1);
    assertEquals(0, from);
  }

  @Test
  void anObjectMayFillAnAnswerButNotMore() {
    Map<Integer, String> objects = new TreeMap<>(BASIC);
    objects.put(4, "y".repeat(Identification.MOST_BYTES));
    byte[] answer = Bench.bytes(frames(objects).answer("2B 0E 04 04"));
    assertEquals(253, answer.length);
    objects.put(4, "y".repeat(Identification.MOST_BYTES + 1));
    assertThrows(IllegalArgumentException.class, () -> new Identification(objects));
  }

  @Test
  void aClientThatMayReadNothingIsToldNothing() {
    assertEquals("AB 01", frames(BASIC).as(Permission.NONE).answer("2B 0E 01 00"));
  }

  @Test
  void withoutAProjectsWordTheProductTellsWhatItIs() {
    byte[] answer = Bench.bytes(frames(Map.of()).answer("2B 0E 04 00"));
    assertEquals("Bufferstop", new String(answer, 9, 10, StandardCharsets.US_ASCII));
  }
}
