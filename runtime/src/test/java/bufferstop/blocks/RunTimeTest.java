package bufferstop.blocks;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** ON_TIME_COUNTER and START_COUNTER. */
class RunTimeTest {
  private final Instance hours = new Instance(RunTime.Hours.TYPE, RunTime.Hours::step);
  private final Instance starts = new Instance(RunTime.Starts.TYPE, RunTime.Starts::step);

  private long ran(double at, boolean runs) {
    return hours.set("IN", runs).at(at).millisOf("ET");
  }

  @Test
  void addsUpTheTimeFromEachRiseToItsFall() {
    assertEquals(0, ran(5, false));
    assertEquals(0, ran(7, true));
    assertEquals(250, ran(7.25, true));
    assertEquals(1_000, ran(8, false));
    assertEquals(1_000, ran(9, false));
    assertEquals(1_000, ran(10, true));
    assertEquals(1_500, ran(10.5, true));
  }

  @Test
  void givesHours() {
    hours.set("IN", true).at(0).at(5_400);
    assertEquals(1.5, hours.real("HOURS"));
  }

  @Test
  void staysAtZeroWhileResetAndGoesOnFromThere() {
    hours.set("IN", true).at(0).at(10);
    assertEquals(0, hours.set("R", true).at(20).millisOf("ET"));
    assertEquals(0, hours.at(30).millisOf("ET"));
    assertEquals(4_000, hours.set("R", false).at(34).millisOf("ET"));
  }

  @Test
  void losesNothingOverAMillionUnevenScans() {
    long expected = 0;
    long micros = 0;
    hours.set("IN", true).at(0);
    for (int scan = 0; scan < 1_000_000; scan++) {
      long step = 1_000 + scan % 7;
      micros += step;
      expected += step;
      hours.at(micros / 1e6);
    }
    assertEquals(expected, hours.count("ET"));
  }

  @Test
  void countsRisesAndAnInThatIsTrueAtFirst() {
    StringBuilder seen = new StringBuilder();
    for (char in : "1101001".toCharArray()) {
      seen.append(starts.set("IN", in == '1').at(0).count("CV"));
    }
    assertEquals("1112223", seen.toString());
    assertEquals(0, starts.set("R", true).set("IN", false).at(0).count("CV"));
    assertEquals(0, starts.set("IN", true).at(0).count("CV"));
    assertEquals(0, starts.set("R", false).at(0).count("CV"));
  }

  @Test
  void stopsCountingAtTheLimitOfUdint() {
    starts.setBits(RunTime.Starts.TYPE.outputs().get(0), 0xFFFF_FFFEL);
    assertEquals(0xFFFF_FFFFL, starts.set("IN", true).at(0).count("CV"));
    starts.set("IN", false).at(0);
    assertEquals(0xFFFF_FFFFL, starts.set("IN", true).at(0).count("CV"));
  }
}
