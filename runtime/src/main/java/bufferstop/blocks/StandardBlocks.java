package bufferstop.blocks;

import bufferstop.st.BlockType;
import java.util.List;

/** The function blocks that every project has: the door of this room. */
public final class StandardBlocks {
  private static final List<BlockType> ALL =
      List.of(
          OnDelay.TYPE,
          OffDelay.TYPE,
          PulseTimer.TYPE,
          Edges.Rising.TYPE,
          Edges.Falling.TYPE,
          Bistables.SetDominant.TYPE,
          Bistables.ResetDominant.TYPE,
          Counters.Up.TYPE,
          Counters.Down.TYPE,
          Counters.UpDown.TYPE,
          AnalogueInput.TYPE,
          LowPass.TYPE,
          RateLimit.TYPE,
          Hysteresis.TYPE,
          RunTime.Hours.TYPE,
          RunTime.Starts.TYPE,
          Vote.TYPE,
          MiddleOfThree.TYPE,
          Totaliser.TYPE,
          PulseGenerator.TYPE,
          Pid.TYPE);

  private StandardBlocks() {}

  /** All of them, in the order of the manual. */
  public static List<BlockType> all() {
    return ALL;
  }
}
