package bufferstop.cli;

import bufferstop.model.Diagnostics;
import bufferstop.report.PointList;
import bufferstop.rig.Rig;
import java.util.concurrent.Callable;
import java.util.function.UnaryOperator;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code points}: the I/O list and the Modbus maps. */
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

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    Diagnostics problems = new Diagnostics();
    Rig rig = argument.rig(1, UnaryOperator.identity(), problems);
    if (rig == null) {
      Said.problems(problems, spec.commandLine().getErr());
      return Exit.NOT_LOADED;
    }
    PointList list =
        new PointList(
            rig.project().controller().points(),
            rig.maps(),
            rig.layout().field(),
            rig.layout().observable());
    spec.commandLine()
        .getOut()
        .print(
            switch (format) {
              case TABLE -> list.table();
              case MARKDOWN -> list.markdown();
              case CSV -> list.csv();
            });
    spec.commandLine().getOut().flush();
    return Exit.OK;
  }
}
