package bufferstop.rig;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.load.ProjectLoader;
import bufferstop.model.Diagnostics;
import bufferstop.model.PlantSide;
import bufferstop.model.Project;
import bufferstop.plant.PlantCatalog;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.function.UnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A controller and a plant of one project, joined by the map of the field. */
class FieldBusTest {
  private static final Duration LONG = Duration.ofSeconds(20);
  private static final Pattern PORT = Pattern.compile(":(\\d+)$");

  private static final String PROJECT =
      """
      project: Sand pit
      scan: T#5ms
      controller:
        inputs: {near: {type: BOOL}, level: {type: REAL}}
        outputs: {gate: {type: BOOL}, horn: {type: BOOL, safe: TRUE}}
        operator: {open: {type: BOOL}, number: {type: UINT}}
        logic: |
          gate := open;
          horn := open;
      modbus:
        field:
          address: 127.0.0.1:PORT
          cycle: T#5ms
          timeout: T#200ms
          on_loss: LOSS
          when_quiet: QUIET
          map: [{all: inputs}, {all: outputs}]
      """;

  @TempDir Path folder;

  private LiveRun plantRun;
  private Rig plant;
  private PlantFace face;
  private Thread plantThread;
  private FieldBus bus;
  private Rig controller;

  private Rig rig(String name, String text, UnaryOperator<Project> change) throws IOException {
    Path project = Files.createDirectory(folder.resolve(name));
    Files.writeString(project.resolve("project.yaml"), text);
    Diagnostics problems = new Diagnostics();
    PlantCatalog plants = PlantCatalog.find(List.of(), problems);
    Rig rig = Rig.build(change.apply(ProjectLoader.read(project, problems)), plants, 1, problems);
    assertEquals(List.of(), problems.sorted());
    return rig;
  }

  private void start(String loss, String quiet) throws IOException {
    String text = PROJECT.replace("LOSS", loss).replace("QUIET", quiet);
    plant = rig("plant", text.replace("PORT", "0"), p -> PlantSide.of(p).project());
    face = new PlantFace(plant, "field");
    face.open();
    plantRun = new LiveRun(plant, null);
    plantRun.pauseWhile(face::isPaused);
    plantThread = new Thread(() -> plantRun.scan(0), "plant");
    plantThread.start();
    Matcher port = PORT.matcher(face.places().get(0));
    assertEquals(true, port.find());
    controller = rig("controller", text.replace("PORT", port.group(1)), Project::withoutField);
    bus = new FieldBus(controller, name -> true);
    bus.start();
  }

  @AfterEach
  void end() throws Exception {
    bus.close();
    plantRun.stop();
    plantThread.join();
    plantRun.close();
    face.close();
  }

  private void force(String input, long bits) {
    int cell = plant.layout().field().find(input).index();
    plantRun.ask(
        rig -> {
          rig.engine().forces().set(cell, bits);
          return null;
        });
  }

  private void order(String point, long bits) {
    controller.engine().cells()[controller.layout().field().find(point).index()] = bits;
  }

  private long get(String name) {
    controller.engine().scan(0);
    return controller.engine().cells()[controller.layout().field().find(name).index()];
  }

  private long plantHas(String output) {
    int cell = plant.layout().field().find(output).index();
    return plantRun.ask(rig -> rig.engine().cells()[cell]).join();
  }

  private void awaits(String name, long bits) {
    await()
        .alias(name)
        .atMost(LONG)
        .pollInterval(Duration.ofMillis(5))
        .until(() -> get(name) == bits);
  }

  private void awaitsInPlant(String output, long bits) {
    await()
        .alias(output)
        .atMost(LONG)
        .until(
            () -> {
              get("near"); // scans go on
              return plantHas(output) == bits;
            });
  }

  @Test
  void inputsAndOutputsCrossTheLink() throws Exception {
    start("safe", "safe");
    awaits("nodes.field.ok", 1);
    force("near", 1);
    force("level", Double.doubleToLongBits(2.5));
    awaits("near", 1);
    awaits("level", Double.doubleToLongBits(2.5));
    assertEquals(1, get("near.good"));
    awaitsInPlant("horn", 0);
    order("open", 1);
    awaitsInPlant("gate", 1);
    awaitsInPlant("horn", 1);
    assertEquals(List.of("gate", "horn"), bus.outputs());
    assertEquals(List.of("gate", "horn"), bus.unwatched());
  }

  @ParameterizedTest(name = "on_loss: {0}")
  @CsvSource({"safe, 0", "hold, 1"})
  void aLostDeviceIsToldAndItsInputsHoldOrAreSafe(String loss, long near) throws Exception {
    start(loss, "safe");
    force("near", 1);
    awaits("near", 1);
    face.close();
    awaits("nodes.field.ok", 0);
    awaits("near.good", 0);
    assertEquals(near, get("near"));
  }

  @ParameterizedTest(name = "when_quiet: {0}")
  @CsvSource({"safe, 0", "hold, 1"})
  void aPlantWithoutItsControllerHoldsOutputsOrMakesThemSafe(String quiet, long gate)
      throws Exception {
    start("safe", quiet);
    order("open", 1);
    awaitsInPlant("gate", 1);
    bus.close();
    await().atMost(LONG).until(face::isQuiet);
    assertEquals(gate, plantHas("gate"));
    assertEquals(1, plantHas("horn"));
  }

  @Test
  void aPlantMayStandStillWithoutItsController() throws Exception {
    start("safe", "pause");
    order("open", 1);
    awaitsInPlant("gate", 1);
    bus.close();
    await().atMost(LONG).until(face::isQuiet);
    long stood = plantRun.ask(rig -> rig.engine().scans()).join();
    for (int turn = 0; turn < 50; turn++) { // each is a turn of the loop, of a millisecond
      assertEquals(stood, plantRun.ask(rig -> rig.engine().scans()).join());
    }
    assertEquals(1, plantHas("gate"));
  }

  @Test
  void acknowledgementIsAwaited() throws Exception {
    start("safe", "safe");
    order("open", 1);
    awaitsInPlant("gate", 1);
    controller.engine().makeSafe();
    assertEquals(List.of(), bus.awaitSafe());
    assertEquals(0, plantHas("gate"));
    face.close();
    get("near"); // a scan that the device is never told of
    assertEquals(List.of("gate", "horn"), bus.awaitSafe());
  }
}
