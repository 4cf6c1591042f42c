package bufferstop.blocks;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Type;
import bufferstop.st.BlockType;
import bufferstop.st.BlockType.Pin;
import bufferstop.st.Body;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Whatever a block over LREAL was given, nothing of it stays once its inputs are in order. */
class PoisonProperties {
  private static final long SEED = Long.getLong("seed", 4_711);
  private static final double[] WILD = {
    Double.NaN,
    Double.POSITIVE_INFINITY,
    Double.NEGATIVE_INFINITY,
    Double.MAX_VALUE,
    -Double.MAX_VALUE,
    Double.MIN_VALUE,
    0,
    -0.0,
    1,
    -1,
    1e300,
    -1e300,
    20
  };
  private static final long[] TIMES = {
    0, 1, -1, 1_000_000, 60_000_000, Long.MAX_VALUE, Long.MIN_VALUE
  };

  static Stream<Map.Entry<BlockType, Body.Step>> blocks() {
    return Stream.of(
        Map.entry(AnalogueInput.TYPE, AnalogueInput::step),
        Map.entry(LowPass.TYPE, LowPass::step),
        Map.entry(RateLimit.TYPE, RateLimit::step),
        Map.entry(Hysteresis.TYPE, Hysteresis::step),
        Map.entry(MiddleOfThree.TYPE, MiddleOfThree::step),
        Map.entry(Totaliser.TYPE, Totaliser::step),
        Map.entry(Pid.TYPE, Pid::step));
  }

  private static long wild(Pin pin, Random random) {
    return switch (pin.type()) {
      case BOOL -> random.nextInt(2);
      case TIME -> TIMES[random.nextInt(TIMES.length)];
      case LREAL -> Double.doubleToRawLongBits(WILD[random.nextInt(WILD.length)]);
      default -> throw new IllegalArgumentException(pin.type() + " is not tried here");
    };
  }

  @ParameterizedTest
  @MethodSource("blocks")
  void whatIsNoNumberNeverEntersOutputsOrMemory(Map.Entry<BlockType, Body.Step> block) {
    Random random = new Random(SEED);
    BlockType type = block.getKey();
    for (int run = 0; run < 200; run++) {
      Instance instance = new Instance(type, block.getValue());
      double now = 0;
      for (int call = 0; call < 50; call++) {
        for (Pin pin : type.inputs()) {
          if (random.nextInt(4) > 0) {
            instance.setBits(pin, wild(pin, random));
          }
        }
        now += random.nextInt(3);
        instance.at(now);
        String where = type.name() + ", seed " + SEED + ", run " + run + ", call " + call + ": ";
        Stream.of(type.outputs(), kept(type))
            .flatMap(pins -> pins.stream().filter(p -> p.type() == Type.LREAL))
            .forEach(
                pin -> {
                  double value = Double.longBitsToDouble(instance.bits(pin));
                  assertTrue(Double.isFinite(value), () -> where + pin.name() + " = " + value);
                });
      }
    }
  }

  /** What of the memory may not be infinite; a PID checks these three where it uses them. */
  private static List<Pin> kept(BlockType type) {
    Set<String> checked = Set.of("seen", "excess", "error");
    return type.memory().stream()
        .filter(pin -> type != Pid.TYPE || !checked.contains(pin.name()))
        .toList();
  }

  @ParameterizedTest
  @MethodSource("blocks")
  void afterAnythingItWorksOnceItsInputsAreInOrder(Map.Entry<BlockType, Body.Step> block) {
    Random random = new Random(SEED + 1);
    BlockType type = block.getKey();
    for (int run = 0; run < 200; run++) {
      Instance instance = new Instance(type, block.getValue());
      double now = 0;
      for (int call = 0; call < 20; call++) {
        type.inputs().forEach(pin -> instance.setBits(pin, wild(pin, random)));
        now += random.nextInt(3);
        instance.at(now);
      }
      for (Pin pin : type.inputs()) {
        instance.setBits(pin, pin.initial().get(0));
        if (pin.required() && pin.type() == Type.LREAL) {
          instance.set(pin.name(), pin.name().equals("LOW") ? 2 : 12);
        }
      }
      instance.at(now + 1).at(now + 2);
      if (type.outputs().stream().anyMatch(p -> p.name().equals("ERR"))) {
        assertEquals(false, instance.on("ERR"), type.name() + ", seed " + SEED + ", run " + run);
      }
    }
  }
}
