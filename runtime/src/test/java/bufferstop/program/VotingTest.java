package bufferstop.program;

import static bufferstop.engine.ScanTable.play;
import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Causes that are voted. */
class VotingTest {
  // Source: MooN, IEC 61508-6 and IEC 61511-1:2016, clause 3 [from memory, not re-read]; bad
  // quality and discrepancy [common practice, no source].

  private static SmallController vote(int needed, String channels, String more) {
    StringBuilder yaml = new StringBuilder("operator:\n  reset: {type: BOOL}\n");
    List<String> of = new ArrayList<>();
    for (String channel : channels.split(" ")) {
      yaml.append("  %s: {type: BOOL}\n  %s_bad: {type: BOOL}\n".formatted(channel, channel));
      of.add(channel + ": " + channel);
    }
    yaml.append(
        "interlocks:\n  stop: {trip: {low: {vote: %d, of: {%s}%s}}, reset: reset}\n"
            .formatted(needed, String.join(", ", of), more));
    return SmallController.of(yaml.toString());
  }

  // table I3, left half: the channels a b c in order, then what 1oo3, 2oo3 and 3oo3 say
  @ParameterizedTest
  @CsvSource({
    "000, 0, 0, 0",
    "001, 1, 0, 0",
    "010, 1, 0, 0",
    "100, 1, 0, 0",
    "011, 1, 1, 0",
    "101, 1, 1, 0",
    "110, 1, 1, 0",
    "111, 1, 1, 1"
  })
  void ofThreeChannels(String abc, long one, long two, long three) {
    assertEquals(one, said(vote(1, "a b c", ""), abc));
    assertEquals(two, said(vote(2, "a b c", ""), abc));
    assertEquals(three, said(vote(3, "a b c", ""), abc));
  }

  // table I3, right half: the channels a b, then what 1oo2 and 2oo2 say
  @ParameterizedTest
  @CsvSource({"00, 0, 0", "01, 1, 0", "10, 1, 0", "11, 1, 1"})
  void ofTwoChannels(String ab, long one, long two) {
    assertEquals(one, said(vote(1, "a b", ""), ab));
    assertEquals(two, said(vote(2, "a b", ""), ab));
  }

  private static long said(SmallController on, String channels) {
    for (int i = 0; i < channels.length(); i++) {
      on.set(String.valueOf((char) ('a' + i)), channels.charAt(i) - '0');
    }
    return on.scan().get("stop.tripped");
  }

  // table I4: 2oo3 with channel c bad; what c itself says does not matter
  @ParameterizedTest
  @CsvSource({
    "trip, 00, 0",
    "trip, 01, 1",
    "trip, 11, 1",
    "absent, 00, 0",
    "absent, 01, 0",
    "absent, 11, 1"
  })
  void aBadChannelCountsAsDeclared(String counts, String ab, long trips) {
    for (long c = 0; c <= 1; c++) {
      SmallController on = vote(2, "a b c", ", bad: {c: c_bad}, bad_counts: " + counts);
      assertEquals(trips, said(on.set("c_bad", 1), ab + c));
    }
  }

  // table I4, last row; by default a bad channel counts as asking [project choice]
  @ParameterizedTest
  @CsvSource({"0", "1"})
  void twoBadChannelsThatCountAsAskingTrip(long a) {
    SmallController on = vote(2, "a b c", ", bad: {b: b_bad, c: c_bad}");
    assertEquals(1, said(on.set("b_bad", 1).set("c_bad", 1), a + "00"));
  }

  @Test
  void channelsThatDifferForTooLongAreTold() { // rule I5; a bad channel is none to compare with
    play(
        vote(2, "a b c", ", differ_after: T#300ms, bad: {c: c_bad}, bad_counts: absent"),
        """
        t                0 100 200 300 400 500 600 700 800 900 1000
        a                0   1   1   1   1   1   1   0   0   0    0
        b                0   0   0   0   0   1   0   0   0   0    0
        c                0   0   0   0   0   1   0   1   1   1    1
        c_bad            0   0   0   0   0   0   0   0   0   0    1
        stop.low.differ  0   0   0   0   1   0   0   0   0   1    0
        """);
  }

  @Test
  void aChannelOfWhatMustHoldAsksWhenItDoesNot() {
    SmallController on =
        SmallController.of(
            """
            operator: {a: {type: BOOL}, b: {type: BOOL}, c: {type: BOOL}}
            outputs: {valve: {type: BOOL}}
            interlocks:
              guard: {interlock: {closed: {vote: 2, of: {a: a, b: b, c: c}}}, makes_safe: [valve]}
            logic: |
              valve := TRUE;
            """);
    play(
        on,
        """
        a              1 1 0      1
        b              1 1 0      0
        c              1 0 1      1
        guard.ok       1 1 0      1
        guard.first.*  - - closed -
        valve          1 1 0      1
        """);
  }

  @Test
  void aDelayedCauseMustAskWithoutABreak() {
    SmallController on =
        SmallController.of(
            """
            operator: {c: {type: BOOL}, reset: {type: BOOL}}
            interlocks:
              stop: {trip: {slow: {when: c, on_delay: T#200ms}}, reset: reset}
            """);
    play(
        on,
        """
        t             0 100 199 200 300 400 499 500
        c             0   1   1   0   1   1   1   1
        stop.tripped  0   0   0   0   0   0   0   1
        """);
  }
}
