package bufferstop.e2e;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.ghgande.j2mod.modbus.ModbusException;
import com.ghgande.j2mod.modbus.ModbusSlaveException;
import com.ghgande.j2mod.modbus.facade.ModbusTCPMaster;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Alarms under the hands of an HMI: a client on a socket acknowledges, resets, shelves. */
class AlarmsIT {
  private static final Duration LONG = Duration.ofSeconds(60);

  private static final int HOT = 0; // coils
  private static final int ACK_OVEN = 1;
  private static final int ACK_GROUP = 2;
  private static final int RESET_OVEN = 3;
  private static final int SHELVE_FAN = 4;
  private static final int UNSHELVE_FAN = 5;

  private static final int UNACK_OVEN = 0; // discrete inputs
  private static final int UNACK_FAN = 1;
  private static final int UNACK_DOOR = 2;
  private static final int LATCHED_OVEN = 3;
  private static final int SHELVED_FAN = 4;
  private static final int ANY = 5;
  private static final int SILENT = 6;

  private static final String PROJECT =
      """
      project: A kiln and its alarms
      scan: T#10ms
      controller:
        operator:
          hot: {type: BOOL}
        alarms:
          oven: {when: hot, acknowledge: TRUE, latching: TRUE, priority: high, text: Oven hot}
          fan: {when: hot, acknowledge: TRUE, group: kiln, text: Fan hot}
          door: {when: hot, acknowledge: TRUE, group: kiln, text: Door hot}
      modbus:
        hmi:
          listen: 127.0.0.1:0
          unit: 1
          map:
            - {point: hot, coil: 0}
            - {point: alarms.oven.acknowledge, coil: 1}
            - {point: alarms.groups.kiln.acknowledge, coil: 2}
            - {point: alarms.oven.reset, coil: 3}
            - {point: alarms.fan.shelve, coil: 4}
            - {point: alarms.fan.unshelve, coil: 5}
            - {point: alarms.oven.unacknowledged, discrete_input: 0}
            - {point: alarms.fan.unacknowledged, discrete_input: 1}
            - {point: alarms.door.unacknowledged, discrete_input: 2}
            - {point: alarms.oven.latched, discrete_input: 3}
            - {point: alarms.fan.shelved, discrete_input: 4}
            - {point: alarms.unacknowledged, discrete_input: 5}
            - {point: alarms.silent, discrete_input: 6}
      """;

  @TempDir Path folder;

  private ModbusTCPMaster client;

  private boolean is(int input) throws ModbusException {
    return client.readInputDiscretes(1, input, 1).getBit(0);
  }

  /** A write is answered by the scan that took it, so what it does shows at once. */
  private void write(int coil, boolean value) throws ModbusException {
    client.writeCoil(1, coil, value);
  }

  @Test
  void anHmiAcknowledgesByAlarmAndByGroupResetsAndShelves() throws Exception {
    Path project = Files.createDirectory(folder.resolve("kiln"));
    Files.writeString(project.resolve("project.yaml"), PROJECT);
    try (Launched run = Launched.typing("run", project.toString(), "--console")) {
      client = new ModbusTCPMaster("127.0.0.1", run.port());
      client.connect();
      await()
          .atMost(LONG)
          .ignoreException(ModbusSlaveException.class) // 04 before the first scan
          .until(() -> !is(ANY));
      write(HOT, true);
      assertTrue(is(UNACK_OVEN) && is(UNACK_FAN) && is(UNACK_DOOR) && is(ANY));
      write(ACK_GROUP, true);
      assertFalse(is(UNACK_FAN) || is(UNACK_DOOR));
      assertTrue(is(UNACK_OVEN), "it is in no group");
      write(RESET_OVEN, true);
      write(HOT, false);
      assertTrue(is(LATCHED_OVEN) && is(UNACK_OVEN));
      write(RESET_OVEN, true);
      assertTrue(is(LATCHED_OVEN), "to be acknowledged first");
      write(ACK_OVEN, true);
      assertTrue(is(LATCHED_OVEN) && !is(UNACK_OVEN));
      write(RESET_OVEN, true);
      assertFalse(is(LATCHED_OVEN) || is(ANY));
      write(SHELVE_FAN, true);
      write(HOT, true);
      assertTrue(is(SHELVED_FAN) && is(SILENT) && !is(UNACK_FAN) && is(UNACK_DOOR));
      write(UNSHELVE_FAN, true);
      assertTrue(is(UNACK_FAN) && !is(SHELVED_FAN));
      client.disconnect();
      run.type("alarms");
      await().atMost(LONG).until(() -> run.output().contains("fan is shelved no more"));
      assertTrue(run.output().matches("(?s).*T#\\S+  scan \\d+  oven is gone and latched.*"));
      run.type("quit");
      assertEquals(0, run.status(), run.output());
      String end = run.output().substring(run.output().lastIndexOf("ending"));
      assertTrue(end.contains("alarm oven: 2 times, standing\n"), end);
      assertTrue(end.contains("alarm fan: 2 times, standing\n"), end);
    }
  }
}
