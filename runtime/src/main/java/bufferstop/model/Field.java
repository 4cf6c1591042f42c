package bufferstop.model;

import java.util.List;

/**
 * What lies outside the controller, every list in file order.
 *
 * @param supplies control supplies
 * @param plants plants by name
 * @param panel elements on the operator's desk
 * @param circuits hard-wired logic
 * @param wires one wire each
 * @param hazards what must never come true
 */
public record Field(
    List<Supply> supplies,
    List<PlantUse> plants,
    List<PanelElement> panel,
    List<Circuit> circuits,
    List<Wire> wires,
    List<Hazard> hazards) {

  /** A control supply. */
  public record Supply(String name, String text, Position position) {}

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
    /** A lamp, lit by a wire. */
    LAMP
  }

  /**
   * An element of the panel. Its value is whether its contact is closed, or its lamp lit.
   *
   * @param normallyClosed contact closed while nobody presses
   * @param latching stays pressed until released
   */
  public record PanelElement(
      String name,
      ElementKind kind,
      boolean normallyClosed,
      boolean latching,
      String text,
      Position position) {}

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
