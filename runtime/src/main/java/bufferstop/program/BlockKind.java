package bufferstop.program;

import bufferstop.model.Type;
import java.util.List;
import java.util.Locale;

/**
 * The standard function blocks and their pins. Source: IEC 61131-3:2003, Tables 34 to 37 [from
 * memory, not re-read].
 */
enum BlockKind {
  TON(List.of(in("IN", Type.BOOL), in("PT", Type.TIME)), List.of(q(), et())),
  TOF(List.of(in("IN", Type.BOOL), in("PT", Type.TIME)), List.of(q(), et())),
  TP(List.of(in("IN", Type.BOOL), in("PT", Type.TIME)), List.of(q(), et())),
  R_TRIG(List.of(in("CLK", Type.BOOL)), List.of(q())),
  F_TRIG(List.of(in("CLK", Type.BOOL)), List.of(q())),
  SR(List.of(in("S1", Type.BOOL), in("R", Type.BOOL)), List.of(new Pin("Q1", Type.BOOL, false))),
  RS(List.of(in("S", Type.BOOL), in("R1", Type.BOOL)), List.of(new Pin("Q1", Type.BOOL, false))),
  CTU(
      List.of(in("CU", Type.BOOL), new Pin("R", Type.BOOL, false), in("PV", Type.INT)),
      List.of(q(), cv())),
  CTD(List.of(in("CD", Type.BOOL), in("LD", Type.BOOL), in("PV", Type.INT)), List.of(q(), cv())),
  CTUD(
      List.of(
          in("CU", Type.BOOL),
          in("CD", Type.BOOL),
          new Pin("R", Type.BOOL, false),
          new Pin("LD", Type.BOOL, false),
          in("PV", Type.INT)),
      List.of(new Pin("QU", Type.BOOL, false), new Pin("QD", Type.BOOL, false), cv()));

  /**
   * An input or output of a block.
   *
   * @param name the standard's
   * @param required whether an input must be given; one that is not is FALSE or 0
   */
  record Pin(String name, Type type, boolean required) {}

  private final List<Pin> inputs;
  private final List<Pin> outputs;

  BlockKind(List<Pin> inputs, List<Pin> outputs) {
    this.inputs = inputs;
    this.outputs = outputs;
  }

  List<Pin> inputs() {
    return inputs;
  }

  List<Pin> outputs() {
    return outputs;
  }

  /** The block of that name in any case, or null. */
  static BlockKind named(String name) {
    String upper = name.toUpperCase(Locale.ROOT);
    for (BlockKind kind : values()) {
      if (kind.name().equals(upper)) {
        return kind;
      }
    }
    return null;
  }

  private static Pin in(String name, Type type) {
    return new Pin(name, type, true);
  }

  private static Pin q() {
    return new Pin("Q", Type.BOOL, false);
  }

  private static Pin cv() {
    return new Pin("CV", Type.INT, false);
  }

  private static Pin et() {
    return new Pin("ET", Type.TIME, false);
  }
}
