package bufferstop.e2e;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.ghgande.j2mod.modbus.ModbusException;
import com.ghgande.j2mod.modbus.facade.ModbusTCPMaster;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The controller in real time, through the real launcher and real sockets. */
class RunCommandIT {
  private static final Duration LONG = Duration.ofSeconds(30);
  private static final int START = 0; // coils
  private static final int RESET = 2;
  private static final int STANDBY = 0; // discrete inputs
  private static final int UNLOCATED = 1;
  private static final int LOCATE_DOWN = 6;
  private static final int LOCATE_UP = 7;

  @TempDir Path folder;

  @Test
  void aClientStartsTheTrainThroughCoilsAndReadsTheStepsChange() throws Exception {
    Path project = Launched.brickworksOnFreePort(folder);
    try (Launched run = Launched.bufferstop("run", project.toString())) {
      ModbusTCPMaster client = new ModbusTCPMaster("127.0.0.1", run.port());
      client.connect();
      try {
        assertTrue(reads(client, STANDBY));
        client.writeCoil(1, RESET, true);
        await().atMost(LONG).until(() -> reads(client, UNLOCATED));
        client.writeCoil(1, START, true);
        await().atMost(LONG).until(() -> reads(client, LOCATE_DOWN));
        await().atMost(LONG).until(() -> reads(client, LOCATE_UP));
      } finally {
        client.disconnect();
      }
      run.terminate();
      assertEquals(0, run.status(), run.output());
      assertTrue(run.output().contains("lateness"), run.output());
    }
  }

  private static boolean reads(ModbusTCPMaster client, int step) throws ModbusException {
    return client.readInputDiscretes(1, step, 1).getBit(0);
  }

  @Test
  void theBeginningNamesRealOutputsAddressAndCaution() throws IOException {
    Path project = Launched.brickworksOnFreePort(folder);
    try (Launched run = Launched.bufferstop("run", project.toString(), "--for", "T#1s")) {
      assertEquals(0, run.status(), run.output());
      String[] lines = run.output().split("\n");
      assertTrue(lines[0].startsWith("real outputs driven: none"), lines[0]);
      assertTrue(run.output().contains("hmi: Modbus TCP on 127.0.0.1:"), run.output());
      assertTrue(run.output().contains("it is no safety system"), run.output());
      assertTrue(run.output().contains("period 10.0 ms"), run.output());
    }
  }

  @Test
  void aPortInUseIsOneLineAndStatusThree() throws IOException {
    Path project = Launched.brickworksOnFreePort(folder);
    try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      Path main = project.resolve("project.yaml");
      String text = Files.readString(main);
      Files.writeString(main, text.replace("127.0.0.1:0", "127.0.0.1:" + taken.getLocalPort()));
      try (Launched run = Launched.bufferstop("run", project.toString())) {
        assertEquals(3, run.status(), run.output());
        assertEquals(1, run.output().lines().count(), run.output());
        assertTrue(run.output().contains(":" + taken.getLocalPort() + " (map hmi)"), run.output());
      }
    }
  }

  @Test
  void aWrongDurationEndsWithTwo() {
    try (Launched run = Launched.bufferstop("run", "configs/brickworks", "--for", "ten seconds")) {
      assertEquals(2, run.status(), run.output());
    }
  }
}
