package bufferstop.plant;

import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Field.ElementKind;
import bufferstop.model.Field.PanelElement;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import java.util.List;
import java.util.Locale;

/** The push buttons of the panel under simulated fingers. */
public final class Desk {
  private final List<PanelElement> buttons;
  private final int[] cells;

  /**
   * @param cells cell of each button's contact
   */
  Desk(List<PanelElement> buttons, int[] cells) {
    this.buttons = buttons;
    this.cells = cells;
  }

  /** Nobody presses. */
  void start(long[] image) {
    for (int i = 0; i < cells.length; i++) {
      image[cells[i]] = buttons.get(i).normallyClosed() ? 1 : 0;
    }
  }

  /** Resolves a press; null after a diagnostic. {@code panel.} before the name may be left out. */
  public Switch press(Name name, Diagnostics problems) {
    return move(name, true, problems);
  }

  /** Resolves a release; null after a diagnostic. */
  public Switch release(Name name, Diagnostics problems) {
    return move(name, false, problems);
  }

  /** Whether a finger that lifts leaves the button pressed. */
  public boolean isLatching(Name name) {
    int number = number(name);
    return number >= 0 && buttons.get(number).latching();
  }

  private Switch move(Name name, boolean pressed, Diagnostics problems) {
    int number = number(name);
    if (number < 0) {
      List<String> known = buttons.stream().map(PanelElement::name).toList();
      problems.add(
          Diagnostic.error(name.position(), "no push button named `" + name.text() + "`")
              .expected("a push button of the panel")
              .help(NearNames.question(bare(name), known)));
      return null;
    }
    long contact = buttons.get(number).normallyClosed() == pressed ? 0 : 1;
    return image -> image[cells[number]] = contact;
  }

  private int number(Name name) {
    for (int i = 0; i < buttons.size(); i++) {
      boolean button = buttons.get(i).kind() == ElementKind.PUSH_BUTTON;
      if (button && buttons.get(i).name().equalsIgnoreCase(bare(name))) {
        return i;
      }
    }
    return -1;
  }

  private static String bare(Name name) {
    String text = name.text();
    return text.toLowerCase(Locale.ROOT).startsWith("panel.") ? text.substring(6) : text;
  }
}
