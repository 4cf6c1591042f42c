package bufferstop.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** One tree laid over another; here a table is written as keys and values in turn. */
class TreeTest {
  private static final Position UNDER = Position.ofFile("under");
  private static final Position OVER = Position.ofFile("over");

  private static Tree value(String text, Position at) {
    return new Tree.Scalar(SourceText.of(text), at);
  }

  private static Tree table(Position at, Object... keysAndValues) {
    List<Tree.Entry> entries = new ArrayList<>();
    for (int i = 0; i < keysAndValues.length; i += 2) {
      Object value = keysAndValues[i + 1];
      Tree tree = value instanceof Tree t ? t : value((String) value, at);
      entries.add(new Tree.Entry(new Name((String) keysAndValues[i], at), tree));
    }
    return new Tree.Table(entries, false, at);
  }

  private static String shown(Tree tree) {
    if (tree instanceof Tree.Table table) {
      return table.entries().stream().map(e -> e.key().text() + "=" + shown(e.value())).toList()
          + "";
    }
    if (tree instanceof Tree.Items items) {
      return "list" + items.items().stream().map(TreeTest::shown).toList();
    }
    return ((Tree.Scalar) tree).value();
  }

  @Test
  void joinsMappingsKeyByKey() {
    Tree under = table(UNDER, "a", "1", "b", table(UNDER, "x", "2", "y", "3"), "c", "4");
    Tree over = table(OVER, "b", table(OVER, "y", "5", "z", "6"), "d", "7");
    assertEquals("[a=1, b=[x=2, y=5, z=6], c=4, d=7]", shown(Tree.overlay(under, over)));
  }

  @Test
  void replacesListsWhole() {
    Tree two = new Tree.Items(List.of(value("1", UNDER), value("2", UNDER)), UNDER);
    Tree one = new Tree.Items(List.of(value("3", OVER)), OVER);
    assertEquals("[a=list[3]]", shown(Tree.overlay(table(UNDER, "a", two), table(OVER, "a", one))));
  }

  @Test
  void replacesWhatIsOfAnotherKind() {
    Tree mapping = table(OVER, "x", "1");
    assertSame(mapping, Tree.overlay(value("5", UNDER), mapping));
    Tree single = value("5", OVER);
    assertSame(single, Tree.overlay(table(UNDER, "x", "1"), single));
  }

  @Test
  void keepsEveryPlace() {
    Tree under = table(UNDER, "a", "1", "b", "2");
    Tree.Table joined = (Tree.Table) Tree.overlay(under, table(OVER, "b", "3", "c", "4"));
    assertSame(UNDER, joined.position());
    assertSame(UNDER, joined.get("a").position());
    assertSame(OVER, joined.get("b").position());
    assertSame(OVER, joined.get("c").position());
  }

  @Test
  void leavesBothAsTheyWere() {
    Tree under = table(UNDER, "a", table(UNDER, "x", "1"));
    Tree over = table(OVER, "a", table(OVER, "x", "2"));
    Tree.overlay(under, over);
    assertEquals("[a=[x=1]]", shown(under));
    assertEquals("[a=[x=2]]", shown(over));
  }
}
