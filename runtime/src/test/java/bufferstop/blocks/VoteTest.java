package bufferstop.blocks;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** VOTE_2OO3. */
class VoteTest {
  // Source: MooN, IEC 61508-6 and IEC 61511-1:2016 clause 3 [from memory, not re-read]; how a bad
  // channel counts [common practice; default: choice], what is left of one or none [choice].

  private static Instance vote(String asks, String bad) {
    Instance vote = new Instance(Vote.TYPE, Vote::step);
    for (String channel : new String[] {"A", "B", "C"}) {
      vote.set(channel, asks.contains(channel)).set(channel + "_OK", !bad.contains(channel));
    }
    return vote;
  }

  @ParameterizedTest(name = "asking {0}: {1}")
  @CsvSource({"-, -", "A, -", "B, -", "C, -", "AB, Q", "AC, Q", "BC, Q", "ABC, Q"})
  void actsWhenTwoOfThreeAsk(String asks, String told) {
    assertEquals(told, vote(asks, "").millis("DELAY", 1).at(0).told());
  }

  @ParameterizedTest(name = "bad {1}, asking {0}: {2}, or {3} when a bad one does not act")
  @CsvSource({
    "-,  C, BAD, BAD",
    "B,  C, Q BAD, BAD",
    "A,  C, Q BAD, BAD",
    "AB, C, Q BAD, Q BAD",
    "C,  C, BAD, BAD",
    "-,  BC, Q BAD, BAD",
    "A,  BC, Q BAD, Q BAD",
    "BC, BC, Q BAD, BAD",
    "-,  ABC, Q BAD, Q BAD"
  })
  void aBadChannelCountsAsDeclared(String asks, String bad, String acting, String absent) {
    assertEquals(acting, vote(asks, bad).millis("DELAY", 1).at(0).told());
    assertEquals(absent, vote(asks, bad).set("BAD_ACTS", false).millis("DELAY", 1).at(0).told());
  }

  @Test
  void tellsOfChannelsThatDifferForTheDelay() {
    Instance vote = vote("A", "").millis("DELAY", 500);
    assertEquals("-", vote.at(10).told());
    assertEquals("-", vote.at(10.49).told());
    assertEquals("DIFFERS", vote.at(10.5).told());
    assertEquals("-", vote.set("A", false).at(10.6).told());
    assertEquals("-", vote.set("A", true).at(10.7).told());
    assertEquals("-", vote.at(11.1).told());
  }

  @Test
  void aBadChannelDoesNotDiffer() {
    assertEquals("BAD", vote("C", "C").at(0).told());
  }
}
