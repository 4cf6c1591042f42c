package bufferstop.model;

import java.util.List;

/**
 * What lies outside the controller, every list in file order.
 *
 * @param supplies control supplies
 * @param nodes remote I/O nodes
 * @param plants plants by name
 * @param panel elements on the operator's desk
 * @param circuits hard-wired logic
 * @param wires one wire each
 * @param hazards what must never come true
 */
public record Field(
    List<Supply> supplies,
    List<Node> nodes,
    List<PlantUse> plants,
    List<PanelElement> panel,
    List<Circuit> circuits,
    List<Wire> wires,
    List<Hazard> hazards) {

  /** A control supply. */
  public record Supply(String name, String text, Position position) {}

  /** What a node and the controller make of each other's points while the link is down. */
  public enum OnLoss {
    /** The last value stays. */
    HOLD,
    /**
     * After the time-out inputs read FALSE or 0 and the node gives its outputs their safe values.
     */
    SAFE
  }

  /**
   * A remote I/O node: points that reach the controller over a link of their own.
   *
   * @param cycleMicros how often the link carries values both ways
   * @param timeoutMicros without news for this long the link counts as down at either end
   */
  public record Node(
      String name,
      long cycleMicros,
      long timeoutMicros,
      OnLoss onLoss,
      String text,
      Position position) {}

  /**
   * A plant of the project.
   *
   * @param model the word a plug-in answers to
   * @param settings as written, checked against the plug-in's schema by the host
   */
  public record PlantUse(String name, Name model, Tree settings, Position position) {}

  /** What stands on the desk. */
  public enum ElementKind {
    /** A contact that a finger moves. */
    PUSH_BUTTON,
    /** A switch that stays where it is turned, with one contact a position. */
    SELECTOR,
    /** A lamp, lit by a wire. */
    LAMP,
    /** A horn, sounded by a wire. */
    HORN
  }

  /**
   * An element of the panel. Its value is whether its contact is closed, or its lamp lit.
   *
   * @param normallyClosed contact closed while nobody presses
   * @param latching stays pressed until released
   * @param positions of a selector, the first being where it stands at the start; empty on others
   */
  public record PanelElement(
      String name,
      ElementKind kind,
      boolean normallyClosed,
      boolean latching,
      List<String> positions,
      String text,
      Position position) {

    /** Full names of its signals: {@code panel.start}, or of a selector {@code panel.mode.auto}. */
    public List<String> signals() {
      return kind == ElementKind.SELECTOR
          ? positions.stream().map(p -> "panel." + name + "." + p).toList()
          : List.of("panel." + name);
    }
  }

  /** A hard-wired BOOL circuit, evaluated every plant step. */
  public record Circuit(String name, SourceText closed, Position position) {}

  /**
   * A wire.
   *
   * @param name how faults and reports call it
   * @param from a plant output, panel contact, circuit, supply or controller output
   * @param to a plant input, panel lamp or controller input
   */
  public record Wire(String name, Name from, Name to, Position position) {}

  /** A condition of the field that must never hold. */
  public record Hazard(String name, SourceText when, Position position) {}
}
