package bufferstop.plant;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Field.ElementKind;
import bufferstop.model.Field.PanelElement;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import java.util.List;
import java.util.Locale;
import java.util.function.ToIntFunction;

/** The push buttons and selectors of the panel under simulated fingers. */
public final class Desk {
  private final List<PanelElement> elements;
  private final ToIntFunction<String> cellOf;

  /**
   * @param elements of the whole panel
   * @param cellOf cell of a contact by its full name
   */
  Desk(List<PanelElement> elements, ToIntFunction<String> cellOf) {
    this.elements = elements;
    this.cellOf = cellOf;
  }

  /** Nobody presses; selectors stand at their first position. */
  void start(long[] image) {
    for (PanelElement element : elements) {
      if (element.kind() == ElementKind.PUSH_BUTTON) {
        image[cellOf.applyAsInt(element.signals().get(0))] = element.normallyClosed() ? 1 : 0;
      } else if (element.kind() == ElementKind.SELECTOR) {
        image[cellOf.applyAsInt(element.signals().get(0))] = 1;
      }
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
    PanelElement element = find(name, ElementKind.PUSH_BUTTON);
    return element != null && element.latching();
  }

  /** Resolves the turning of a selector; null after a diagnostic. */
  public Switch turn(Name name, Name to, Diagnostics problems) {
    PanelElement element = known(name, ElementKind.SELECTOR, "selector", problems);
    if (element == null) {
      return null;
    }
    int wanted = -1;
    int[] cells = new int[element.positions().size()];
    for (int i = 0; i < cells.length; i++) {
      cells[i] = cellOf.applyAsInt(element.signals().get(i));
      wanted = element.positions().get(i).equalsIgnoreCase(to.text()) ? i : wanted;
    }
    if (wanted < 0) {
      problems.add(
          Diagnostic.error(
                  Code.UNKNOWN_NAME,
                  to.position(),
                  "selector `" + element.name() + "` has no position `" + to.text() + "`")
              .expected(String.join(", ", element.positions()))
              .help(NearNames.question(to.text(), element.positions())));
      return null;
    }
    int position = wanted;
    return image -> {
      for (int i = 0; i < cells.length; i++) {
        image[cells[i]] = i == position ? 1 : 0;
      }
    };
  }

  private Switch move(Name name, boolean pressed, Diagnostics problems) {
    PanelElement element = known(name, ElementKind.PUSH_BUTTON, "push button", problems);
    if (element == null) {
      return null;
    }
    int cell = cellOf.applyAsInt(element.signals().get(0));
    long closed = element.normallyClosed() == pressed ? 0 : 1;
    return image -> image[cell] = closed;
  }

  private PanelElement known(Name name, ElementKind kind, String what, Diagnostics problems) {
    PanelElement element = find(name, kind);
    if (element == null) {
      List<String> known =
          elements.stream().filter(e -> e.kind() == kind).map(PanelElement::name).toList();
      problems.add(
          Diagnostic.error(
                  Code.UNKNOWN_NAME, name.position(), "no " + what + " named `" + name.text() + "`")
              .expected("a " + what + " of the panel")
              .help(NearNames.question(bare(name), known)));
    }
    return element;
  }

  private PanelElement find(Name name, ElementKind kind) {
    for (PanelElement element : elements) {
      if (element.kind() == kind && element.name().equalsIgnoreCase(bare(name))) {
        return element;
      }
    }
    return null;
  }

  private static String bare(Name name) {
    String text = name.text();
    return text.toLowerCase(Locale.ROOT).startsWith("panel.") ? text.substring(6) : text;
  }
}
