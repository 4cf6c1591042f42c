package bufferstop.cli;

import bufferstop.model.Diagnostics;
import bufferstop.model.Symbol;
import bufferstop.plant.FieldRun;
import bufferstop.report.MatrixText;
import bufferstop.report.PointList;
import bufferstop.report.ReportFolder;
import bufferstop.rig.CauseAndEffect;
import bufferstop.rig.Rig;
import java.io.IOException;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.function.UnaryOperator;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code points}: the I/O list and the Modbus maps, or the cause-and-effect matrix. */
@Command(
    name = "points",
    description = "Prints the I/O list and the Modbus maps.",
    mixinStandardHelpOptions = true)
final class PointsCommand implements Callable<Integer> {

  /** How the list is printed. */
  enum Format {
    TABLE,
    MARKDOWN,
    CSV
  }

  @Mixin private ProjectArgument argument;

  @Option(
      names = "--format",
      defaultValue = "table",
      description = "table, markdown or csv (default: ${DEFAULT-VALUE})")
  private Format format;

  /** Which points are listed. */
  enum ListedKind {
    INPUT,
    OUTPUT,
    OPERATOR,
    INTERNAL,
    PLANT_PORT
  }

  @Option(
      names = "--kind",
      description =
          "list only points of this kind: input, output, operator, internal, plant_port;"
              + " may be repeated")
  private Set<ListedKind> kinds = EnumSet.allOf(ListedKind.class);

  @Option(
      names = "--matrix",
      description = "print the cause-and-effect matrix of the interlocks instead")
  private boolean matrix;

  @Option(
      names = "--pictures",
      paramLabel = "DIR",
      description = "also write a picture of each plant at rest, DIR/PLANT.svg")
  private Path pictures;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws IOException {
    Diagnostics problems = new Diagnostics();
    Rig rig = argument.rig(1, UnaryOperator.identity(), problems);
    if (rig == null) {
      Said.problems(problems, spec.commandLine().getErr());
      return Exit.NOT_LOADED;
    }
    spec.commandLine().getOut().print(matrix ? matrix(rig) : points(rig));
    spec.commandLine().getOut().flush();
    if (pictures != null) {
      for (FieldRun.Picture picture : rig.field().pictures()) {
        ReportFolder.writePictureAtRest(pictures, picture.name(), picture.svg());
      }
    }
    return Exit.OK;
  }

  private String points(Rig rig) {
    PointList list =
        new PointList(
            rig.project().controller().points(),
            rig.maps(),
            rig.layout().field(),
            rig.layout().observable(),
            this::isListed);
    return switch (format) {
      case TABLE -> list.table();
      case MARKDOWN -> list.markdown();
      case CSV -> list.csv();
    };
  }

  private String matrix(Rig rig) {
    MatrixText text = new MatrixText(CauseAndEffect.of(rig));
    return switch (format) {
      case TABLE -> text.table();
      case MARKDOWN -> text.markdown();
      case CSV -> text.csv();
    };
  }

  private boolean isListed(Symbol.Kind kind) {
    return kinds.contains(ListedKind.valueOf(kind.name()));
  }
}
