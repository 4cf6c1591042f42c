package bufferstop.bench;

import bufferstop.load.ProjectLoader;
import bufferstop.model.Diagnostics;
import bufferstop.model.Project;
import bufferstop.model.SystemCells;
import bufferstop.plant.PlantCatalog;
import bufferstop.rig.Rig;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** The project of a {@link ScanProgram}, put together as a run does. */
final class Declared implements Controller {
  private final Rig rig;
  private final long[] cells;
  private final int firstBit;
  private final int firstReal;
  private final int[] steps;
  private final int[] rungs;

  private Declared(Rig rig, int rungs) {
    this.rig = rig;
    cells = rig.engine().cells();
    firstBit = cell("i0");
    firstReal = cell("r0");
    steps = new int[30];
    for (int i = 0; i < steps.length; i++) {
      steps[i] = cell("s.s" + i + ".X");
    }
    this.rungs = new int[Math.min(rungs, 200)];
    for (int i = 0; i < this.rungs.length; i++) {
      this.rungs[i] = cell("q" + i);
    }
    rig.engine().prepare();
  }

  private int cell(String name) {
    return rig.layout().field().find(name).index();
  }

  /** Loads, checks and links a project. */
  static Declared load(String project, int rungs, Path folder) throws IOException {
    Path file = Files.createDirectories(folder).resolve("project.yaml");
    Files.writeString(file, project);
    Diagnostics problems = new Diagnostics();
    Project read = ProjectLoader.read(file, problems);
    Rig rig = Rig.build(read, PlantCatalog.find(List.of(), problems), 1, problems);
    if (rig == null) {
      throw new IOException("the generated project is wrong: " + problems.sorted());
    }
    return new Declared(rig, rungs);
  }

  @Override
  public void scan(boolean[] bits, double[] reals, long now) {
    for (int i = 0; i < ScanProgram.BITS; i++) {
      cells[firstBit + i] = bits[i] ? 1 : 0;
    }
    for (int i = 0; i < ScanProgram.REALS; i++) {
      cells[firstReal + i] = Double.doubleToRawLongBits(reals[i]);
    }
    rig.engine().scan(0);
  }

  @Override
  public int step() {
    for (int i = 0; i < steps.length; i++) {
      if (cells[steps[i]] != 0) {
        return i;
      }
    }
    return -1;
  }

  @Override
  public boolean rung(int i) {
    return cells[rungs[i]] != 0;
  }

  @Override
  public long errors() {
    return cells[SystemCells.ERRORS];
  }
}
