package bufferstop.e2e;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.ghgande.j2mod.modbus.ModbusException;
import com.ghgande.j2mod.modbus.ModbusSlaveException;
import com.ghgande.j2mod.modbus.facade.ModbusTCPMaster;
import com.ghgande.j2mod.modbus.procimg.Register;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * Meters read by clients that know two rules: find the marker, step by length. What the models hold
 * is the Alliance's [model definitions re-read]; checks are those of its rules.
 */
class SunSpecIT {
  private static final Path PROJECT =
      Path.of("src/test/resources/interop/sunspec").toAbsolutePath();
  private static final int HALL = 21;
  private static final int LAMP = 22;
  private static final Duration LONG = Duration.ofSeconds(30);
  private static final int MOST = 125; // registers an answer holds

  private static Launched run;
  private static ModbusTCPMaster client;

  @BeforeAll
  static void serve() throws Exception {
    run = Launched.bufferstop("run", PROJECT.toString());
    client = new ModbusTCPMaster("127.0.0.1", run.port());
    client.connect();
    await().atMost(LONG).until(() -> value(models(HALL).get(203), 18) > 0);
  }

  @AfterAll
  static void end() {
    client.disconnect();
    run.close();
  }

  private static int[] read(int unit, int address, int count) throws ModbusException {
    int[] words = new int[count];
    for (int at = 0; at < count; at += MOST) {
      Register[] part =
          client.readMultipleRegisters(unit, address + at, Math.min(MOST, count - at));
      for (int i = 0; i < part.length; i++) {
        words[at + i] = part[i].getValue();
      }
    }
    return words;
  }

  private static int base(int unit) throws ModbusException {
    for (int base : new int[] {40_000, 0, 50_000}) {
      try {
        int[] marker = read(unit, base, 2);
        if (marker[0] == 0x5375 && marker[1] == 0x6E53) {
          return base;
        }
      } catch (ModbusSlaveException e) {
        // nothing stands there: the next place
      }
    }
    throw new AssertionError("no marker");
  }

  /** Every model with its head, by its number, in their order. */
  private static Map<Integer, int[]> models(int unit) throws ModbusException {
    Map<Integer, int[]> models = new LinkedHashMap<>();
    int at = base(unit) + 2;
    for (int[] head = read(unit, at, 2); head[0] != 0xFFFF; head = read(unit, at, 2)) {
      models.put(head[0], read(unit, at, head[1] + 2));
      at += head[1] + 2;
    }
    int behind = at + 2;
    assertThrows(ModbusSlaveException.class, () -> read(unit, behind, 1));
    return models;
  }

  private static int value(int[] model, int offset) {
    return (short) model[offset];
  }

  private static float real(int[] model, int offset) {
    return Float.intBitsToFloat(model[offset] << 16 | model[offset + 1]);
  }

  private static long accumulator(int[] model, int offset) {
    return (long) model[offset] << 16 | model[offset + 1];
  }

  private static String text(int[] model, int offset, int registers) {
    ByteBuffer bytes = ByteBuffer.allocate(2 * registers);
    for (int i = 0; i < registers; i++) {
      bytes.putShort((short) model[offset + i]);
    }
    return new String(bytes.array(), StandardCharsets.US_ASCII).replace("\0", "");
  }

  @Test
  void eachMeterIsFoundAndSaysWhoItIs() throws Exception {
    assertEquals(List.of(1, 203, 213), List.copyOf(models(HALL).keySet()));
    assertEquals(List.of(1, 201, 211), List.copyOf(models(LAMP).keySet()));
    assertEquals(40_000, base(HALL));
    assertEquals(0, base(LAMP));
    int[] common = models(HALL).get(1);
    assertEquals("Hollin Instruments", text(common, 2, 16));
    assertEquals("HM-3", text(common, 18, 16));
    assertEquals("", text(common, 34, 8));
    assertEquals("1.0", text(common, 42, 8));
    assertEquals("HB-0021", text(common, 50, 16));
    assertArrayEquals(new int[] {HALL, 0x8000}, new int[] {common[66], common[67]});
  }

  /** 203 and 213 in one snapshot agree within one least digit of 203. */
  @Test
  void wholeNumbersAndFloatsAgree() throws Exception {
    int[][] models = oneSnapshot();
    int[] whole = models[0];
    int[] real = models[1];
    int[][] offsets = { // offset in 203, its scale point, offset in 213
      {2, 6, 2},
      {3, 6, 4},
      {4, 6, 6},
      {5, 6, 8},
      {7, 15, 10},
      {8, 15, 12},
      {11, 15, 18},
      {12, 15, 20},
      {16, 17, 26},
      {18, 22, 28},
      {23, 27, 36},
      {28, 32, 44}
    };
    for (int[] each : offsets) {
      double digit = Math.pow(10, value(whole, each[1]));
      double found = value(whole, each[0]) * digit;
      assertEquals(real(real, each[2]), found, digit, "at " + each[0]);
      assertTrue(Math.abs(found) > 0, "at " + each[0]);
    }
    // a percentage in whole numbers, a share in floating point
    assertEquals(real(real, 52), value(whole, 33) * 1e-4, 1e-4);
    assertEquals(real(real, 68), accumulator(whole, 46), 1);
    assertEquals(230, real(real, 12), 15);
    assertEquals(50, real(real, 26), 0.01);
    assertEquals(6900, real(real, 28), 500);
  }

  /** The 231 registers of both models do not fit one answer; they are read until nothing moved. */
  private static int[][] oneSnapshot() throws ModbusException {
    Map<Integer, int[]> before = models(HALL);
    for (int tries = 0; tries < 100; tries++) {
      Map<Integer, int[]> after = models(HALL);
      boolean still = java.util.Arrays.equals(before.get(203), after.get(203));
      if (still && java.util.Arrays.equals(before.get(213), after.get(213))) {
        return new int[][] {after.get(203), after.get(213)};
      }
      before = after;
    }
    throw new AssertionError("the meter never stood still");
  }

  @Test
  void whatIsMandatoryHoldsAValueAndWhatIsNotThereSaysSo() throws Exception {
    int[] three = models(HALL).get(203);
    int[] one = models(LAMP).get(201);
    for (int offset : new int[] {2, 3, 4, 5, 7, 8, 9, 10, 11, 12, 13, 14, 16, 18}) {
      assertTrue(three[offset] != 0x8000, "offset " + offset);
    }
    for (int offset : new int[] {2, 3, 16, 18}) {
      assertTrue(one[offset] != 0x8000, "offset " + offset);
    }
    for (int offset : new int[] {4, 5, 9, 10, 11, 12, 13, 14, 20, 21}) {
      assertEquals(0x8000, one[offset], "offset " + offset);
    }
    int[] real = models(LAMP).get(211);
    assertEquals(0x7FC0, real[6]);
    assertEquals(0, real[7]);
    for (int[] model : new int[][] {three, one}) {
      for (int scale : new int[] {6, 15, 17, 22, 27, 32, 37, 54, 71, 104}) {
        assertTrue(Math.abs(value(model, scale)) <= 10, "scale point " + scale);
      }
      assertArrayEquals(new int[] {0, 0}, new int[] {model[105], model[106]}, "no event");
    }
    assertEquals(-1, value(one, 22), "the project's own exponent");
    assertEquals(real(real, 28), value(one, 18) * 0.1, 0.1);
  }

  @Test
  void nothingCanBeWritten() {
    assertThrows(
        ModbusSlaveException.class, () -> client.writeSingleRegister(HALL, 40_088, read1()));
    assertThrows(
        ModbusSlaveException.class, () -> client.writeSingleRegister(HALL, 40_000, read1()));
  }

  private static Register read1() {
    return new com.ghgande.j2mod.modbus.procimg.SimpleRegister(1);
  }

  @Test
  void aClientInAnotherLanguageReadsTheSame() throws Exception {
    String python = "/usr/bin/python3";
    boolean there =
        Path.of(python).toFile().canExecute()
            && new ProcessBuilder(python, "-c", "import pymodbus").start().waitFor() == 0;
    if (!there && System.getenv("BUFFERSTOP_REQUIRE_CLIENTS") != null) {
      fail("python3-pymodbus is not installed");
    }
    assumeTrue(there, "python3-pymodbus is not installed");
    String script = PROJECT.resolveSibling("sunspec.py").toString();
    Process process =
        new ProcessBuilder(python, script, "" + run.port(), "" + HALL, "" + LAMP)
            .redirectErrorStream(true)
            .start();
    String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, process.waitFor(), text);
    List<String> lines = text.lines().toList();
    assertTrue(
        lines.get(0).startsWith("21|40000|1:66/203:105/213:124|Hollin Instruments|HB-0021|"), text);
    assertTrue(
        lines.get(1).startsWith("22|0|1:66/201:105/211:124|Hollin Instruments|HB-0022|"), text);
    String[] watts = lines.get(0).split("\\|");
    assertEquals(Double.parseDouble(watts[6]), Double.parseDouble(watts[5]), 1, text);
    assertEquals("all good", lines.get(2));
  }
}
