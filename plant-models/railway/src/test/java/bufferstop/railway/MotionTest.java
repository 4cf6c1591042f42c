package bufferstop.railway;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MotionTest {
  // Roots of d + s t + a t²/2 worked out by hand [computed].
  @ParameterizedTest(name = "{0} m, {1} m/s, {2} m/s2: {3} s")
  @CsvSource({
    "6, -3, 0, 2", "8, 0, -4, 2", "4, -5, 2, 1", "4, 1, -10, 1.0",
    "4, -1, 1, Infinity", "4, 1, 0, Infinity", "4, 0, 0, Infinity", "0, -1, 0, 0",
    "0, 1, -1, Infinity", "-1e-17, -1, 5, 0"
  })
  void findsTheFirstMeeting(double distance, double speed, double acceleration, double time) {
    assertEquals(time, Motion.timeToMeet(distance, speed, acceleration), 1e-12);
  }

  @ParameterizedTest(name = "{0} m/s, {1} m/s2: {2} s")
  @CsvSource({"2, -4, 0.5", "-2, 4, 0.5", "2, 4, Infinity", "0, 1, Infinity", "1, 0, Infinity"})
  void findsTheStandstill(double speed, double acceleration, double time) {
    assertEquals(time, Motion.timeToZero(speed, acceleration), 1e-15);
  }
}
