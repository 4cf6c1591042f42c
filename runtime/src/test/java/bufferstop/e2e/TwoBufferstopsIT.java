package bufferstop.e2e;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.ghgande.j2mod.modbus.ModbusException;
import com.ghgande.j2mod.modbus.facade.ModbusTCPMaster;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The brickworks in two processes: one plays the plant, the other asks it as remote I/O, with a
 * network between them that fails. An HMI works the controller.
 */
class TwoBufferstopsIT {
  private static final Duration LONG = Duration.ofSeconds(60);
  private static final Pattern COIL = Pattern.compile("point: (\\w+), coil: (\\d+)");
  private static final Pattern STATE = Pattern.compile("point: ([\\w.]+), discrete_input: (\\d+)");

  @TempDir Path folder;

  private final Map<String, Integer> coils = new TreeMap<>();
  private final Map<String, Integer> states = new TreeMap<>();
  private ModbusTCPMaster hmi;

  /** A copy of the project whose hmi is on a free port and whose field is at that port. */
  private Path project(String name, int fieldPort) throws Exception {
    Path project = Launched.brickworksOnFreePort(Files.createDirectory(folder.resolve(name)));
    Path main = project.resolve("project.yaml");
    String text = Files.readString(main);
    Files.writeString(
        main, text.replace("127.0.0.1:2502", "127.0.0.1:" + fieldPort).replace("T#150ms", "T#1s"));
    return project;
  }

  private void readMap(Path project) throws Exception {
    String map = Files.readString(project.resolve("rig/hmi.yaml"));
    for (Matcher m = COIL.matcher(map); m.find(); ) {
      coils.put(m.group(1), Integer.parseInt(m.group(2)));
    }
    for (Matcher m = STATE.matcher(map); m.find(); ) {
      states.put(m.group(1), Integer.parseInt(m.group(2)));
    }
  }

  private boolean is(String state) throws ModbusException {
    return hmi.readInputDiscretes(1, states.get(state), 1).getBit(0);
  }

  private void awaitState(String state) {
    await().alias(state).atMost(LONG).until(() -> is(state));
  }

  private void press(String coil) throws ModbusException {
    hmi.writeCoil(1, coils.get(coil), true);
  }

  @Test
  void aHaulRunsOverTheLinkStopsWhenItIsCutAndGoesOnOnTheOperatorsWord() throws Exception {
    try (Launched plant = Launched.bufferstop("plant", project("plant", 0).toString());
        TcpProxy link = new TcpProxy(plant.port())) {
      Path controller = project("controller", link.port());
      readMap(controller);
      try (Launched run = Launched.bufferstop("run", controller.toString(), "--io", "field")) {
        hmi = new ModbusTCPMaster("127.0.0.1", run.port());
        hmi.connect();
        try {
          haul(link);
        } finally {
          hmi.disconnect();
        }
        run.terminate();
        assertEquals(0, run.status(), run.output());
        assertTrue(run.output().startsWith("real outputs driven: traction, "), run.output());
        assertTrue(run.output().contains("no watchdog makes these safe"), run.output());
      }
      plant.terminate();
      assertEquals(0, plant.status(), plant.output());
      assertTrue(plant.output().contains("controller: "), plant.output());
    }
  }

  private void haul(TcpProxy link) throws Exception {
    awaitState("haul.standby.X");
    press("reset");
    awaitState("haul.unlocated.X");
    press("start");
    awaitState("haul.locate_down.X");
    link.delay(20); // late, but not lost
    awaitState("haul.locate_up.X");
    link.delay(0);
    awaitState("haul.ready.X");
    press("start");
    awaitState("haul.fill.X");
    link.cut(true);
    awaitState("haul.stopped.X");
    link.cut(false);
    startAnew();
    link.freeze(true);
    awaitState("haul.stopped.X");
    link.freeze(false);
    startAnew();
  }

  /** Reset and start find the train, whatever stopped it. */
  private void startAnew() throws Exception {
    await()
        .atMost(LONG)
        .until(
            () -> {
              press("reset"); // until the link is back and its loss can be reset
              return is("haul.unlocated.X");
            });
    press("start");
    awaitState("haul.ready.X");
  }

  @Test
  void withoutItsDevicesARunSaysThatNothingIsSafe() throws Exception {
    Path project = project("alone", 1);
    try (Launched run =
        Launched.bufferstop("run", project.toString(), "--io", "field", "--for", "T#1s")) {
      assertEquals(3, run.status(), run.output());
      assertTrue(run.output().contains("not acknowledged as safe by their device: traction"));
      assertTrue(run.output().contains("device field: 0 rounds"), run.output());
    }
  }
}
