package bufferstop.testkit;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.spi.Parameter;
import bufferstop.spi.Plant;
import bufferstop.spi.PlantModel;
import bufferstop.spi.Port;
import bufferstop.spi.Problems;
import bufferstop.spi.RandomStream;
import bufferstop.spi.Settings;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;

/** The contract test fails plants that break the contract, and passes one that keeps it. */
class ContractCatchesTest {
  private enum Flaw {
    NONE,
    ALLOCATES,
    LEAVES_AN_OUTPUT,
    FORGETS_ITS_STATE,
    DIFFERS_EACH_RUN,
    TAKES_ANY_CALL,
    NAMES_A_PORT_TWICE
  }

  private static long runs;

  /** A counter of its input. */
  private record Counter(Flaw flaw) implements PlantModel {
    @Override
    public String name() {
      return "counter";
    }

    @Override
    public List<Parameter> schema() {
      return List.of(Parameter.number("gain", "", 0, 9, "Gain"));
    }

    @Override
    public Plant open(Settings settings, Problems problems, RandomStream random) {
      return new Count(flaw, settings.number("gain"));
    }
  }

  private static final class Count implements Plant {
    private final Flaw flaw;
    private final double gain;
    private boolean running;
    private double sum;
    private Object kept;

    Count(Flaw flaw, double gain) {
      this.flaw = flaw;
      this.gain = gain;
      sum = flaw == Flaw.DIFFERS_EACH_RUN ? runs++ : 0;
    }

    @Override
    public List<Port> inputs() {
      return List.of(Port.contact("in", "In"));
    }

    @Override
    public List<Port> outputs() {
      String second = flaw == Flaw.NAMES_A_PORT_TWICE ? "sum" : "twice";
      return List.of(Port.quantity("sum", "", "Sum"), Port.quantity(second, "", "Twice"));
    }

    @Override
    public void start(double[] out) {
      refuse(running, "start");
      running = true;
      write(out);
    }

    @Override
    public void step(long stepMicros, double[] in, double[] out) {
      refuse(!running, "step");
      sum += gain * in[0];
      kept = flaw == Flaw.ALLOCATES ? new double[2] : kept;
      write(out);
    }

    private void write(double[] out) {
      out[0] = sum;
      if (flaw != Flaw.LEAVES_AN_OUTPUT) {
        out[1] = 2 * sum;
      }
    }

    @Override
    public void save(DataOutput to) throws IOException {
      refuse(!running, "save");
      to.writeDouble(flaw == Flaw.FORGETS_ITS_STATE ? 0 : sum);
    }

    @Override
    public void restore(DataInput from) throws IOException {
      sum = from.readDouble();
      running = true;
    }

    private void refuse(boolean outOfOrder, String method) {
      if (outOfOrder && flaw != Flaw.TAKES_ANY_CALL) {
        throw new IllegalStateException(method + " called out of order");
      }
    }
  }

  private static PlantContractTest contract(Flaw flaw) {
    return new PlantContractTest() {
      @Override
      protected PlantModel model() {
        return new Counter(flaw);
      }

      @Override
      protected String settings() {
        return "gain: 2";
      }

      @Override
      protected void stimulate(long step, double[] in) {
        in[0] = step % 3 == 0 ? 1 : 0;
      }

      @Override
      protected int steps() {
        return 2000;
      }
    };
  }

  private static void assertFails(Executable check) {
    assertThrows(AssertionError.class, check);
  }

  @Test
  void passesAPlantThatKeepsIt() {
    PlantContractTest good = contract(Flaw.NONE);
    assertDoesNotThrow(good::sameSeedGivesTheSameRunBitForBit);
    assertDoesNotThrow(good::stimulusMovesTheOutputs);
    assertDoesNotThrow(good::stepAllocatesNothing);
    assertDoesNotThrow(good::everyOutputIsWritten);
    assertDoesNotThrow(good::callsOutOfOrderAreRefusedByName);
    assertDoesNotThrow(good::restoredPlantGoesOnBitForBit);
    assertDoesNotThrow(good::namesAreUniqueAndWellFormed);
    assertDoesNotThrow(good::schemaIsWellFormed);
  }

  @Test
  void failsAPlantThatAllocates() {
    assertFails(contract(Flaw.ALLOCATES)::stepAllocatesNothing);
  }

  @Test
  void failsAPlantThatLeavesAnOutput() {
    assertFails(contract(Flaw.LEAVES_AN_OUTPUT)::everyOutputIsWritten);
  }

  @Test
  void failsAPlantThatForgetsItsState() {
    assertFails(contract(Flaw.FORGETS_ITS_STATE)::restoredPlantGoesOnBitForBit);
  }

  @Test
  void failsAPlantThatDiffersEachRun() {
    assertFails(contract(Flaw.DIFFERS_EACH_RUN)::sameSeedGivesTheSameRunBitForBit);
    assertTrue(runs > 1);
  }

  @Test
  void failsAPlantThatTakesAnyCall() {
    assertFails(contract(Flaw.TAKES_ANY_CALL)::callsOutOfOrderAreRefusedByName);
  }

  @Test
  void failsAPlantThatNamesAPortTwice() {
    assertFails(contract(Flaw.NAMES_A_PORT_TWICE)::namesAreUniqueAndWellFormed);
  }

  @Test
  void failsAModelTheServiceLoaderDoesNotFind() {
    assertFails(contract(Flaw.NONE)::serviceLoaderFindsTheModel);
  }
}
