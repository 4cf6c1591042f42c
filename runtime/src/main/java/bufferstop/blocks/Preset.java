package bufferstop.blocks;

import bufferstop.st.BlockType.Pin;

/** Which preset a timer goes by. The standard leaves it open; LIVE is the default [choice]. */
final class Preset {
  private Preset() {}

  static Pin latched() {
    return Pin.truth(
        "LATCHED", false, "TRUE: the PT of the start counts; FALSE: the PT of each scan");
  }
}
