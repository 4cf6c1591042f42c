package bufferstop.image;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;

import bufferstop.image.Layout.Seen;
import bufferstop.model.Position;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Who sees which cell under which name. */
class LayoutTest {
  private final Layout layout = new Layout();

  private Symbol add(String name, Seen seen) {
    return layout.add(
        name, Type.BOOL, Symbol.Kind.INTERNAL, seen, "", "", Position.ofFile("project.yaml"));
  }

  @Test
  void cellsAreNumberedInTheOrderAdded() {
    assertEquals(0, add("a", Seen.BY_ALL).index());
    assertEquals(1, add("b", Seen.BY_FIELD).index());
    assertEquals(List.of("a", "b"), layout.symbols().stream().map(Symbol::name).toList());
  }

  @Test
  void namesAreFoundInAnyCase() {
    Symbol symbol = add("Pit_Beam", Seen.BY_ALL);
    assertEquals(symbol, layout.controller().find("pit_BEAM"));
    assertEquals(symbol, layout.field().find("PIT_beam"));
    assertNull(layout.field().find("pit"));
  }

  @Test
  void aNameIsTakenInAnyCase() {
    add("valve", Seen.BY_ALL);
    assertNull(add("VALVE", Seen.BY_ALL));
    assertNull(add("Valve", Seen.BY_FIELD));
    assertEquals(1, layout.symbols().size());
  }

  @Test
  void anOutputHasACellForTheControllerAndOneForTheField() {
    Symbol program = add("valve", Seen.BY_CONTROLLER);
    Symbol given = add("valve", Seen.BY_FIELD);
    assertNotNull(given);
    assertNotEquals(program.index(), given.index());
    assertEquals(program, layout.controller().find("valve"));
    assertEquals(given, layout.field().find("valve"));
    assertEquals(List.of(given), layout.observable());
  }

  @Test
  void eachScopeListsWhatItSees() {
    add("both", Seen.BY_ALL);
    add("port", Seen.BY_FIELD);
    add("inner", Seen.BY_CONTROLLER);
    assertEquals(List.of("both", "port"), List.copyOf(layout.field().names()));
    assertEquals(List.of("both", "inner"), List.copyOf(layout.controller().names()));
  }
}
