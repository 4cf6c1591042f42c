package bufferstop.cli;

import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.IVersionProvider;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The command line. */
@Command(
    name = "bufferstop",
    description = "Runs, serves and proves a controller declared in YAML, on the bench.",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    synopsisSubcommandLabel = "COMMAND",
    subcommands = {
      BillCommand.class,
      CheckCommand.class,
      PointsCommand.class,
      ReplayCommand.class,
      RunCommand.class,
      PlantCommand.class,
      SchemaCommand.class,
      TestCommand.class,
      TraceCommand.class,
      CommandLine.HelpCommand.class
    })
public final class Main implements Runnable {
  @Spec private CommandSpec spec;

  /** Runs one command and ends the process with its status. */
  public static void main(String[] arguments) {
    System.exit(run(arguments));
  }

  /** Runs one command; returns its exit status. */
  static int run(String... arguments) {
    CommandLine commandLine = new CommandLine(new Main());
    commandLine.setCaseInsensitiveEnumValuesAllowed(true);
    commandLine.setExecutionExceptionHandler(
        (e, command, parsed) -> {
          command.getErr().println("bufferstop: " + Said.plainly(e));
          return Exit.RUN_FAILED;
        });
    return commandLine.execute(arguments);
  }

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "a command is missing");
  }

  /** The version from the jar's manifest. */
  static final class Version implements IVersionProvider {
    @Override
    public String[] getVersion() {
      return new String[] {"Bufferstop " + number()};
    }

    static String number() {
      String version = Main.class.getPackage().getImplementationVersion();
      return version == null ? "of this build" : version;
    }
  }
}
