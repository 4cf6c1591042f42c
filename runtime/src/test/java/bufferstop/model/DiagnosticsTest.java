package bufferstop.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class DiagnosticsTest {
  private final Diagnostics problems = new Diagnostics();

  @Test
  void areSortedByFileLineAndColumnAndHeldOnce() {
    Diagnostic d = error("b.yaml", 1, 1);
    Diagnostic c = error("a.yaml", 10, 1);
    Diagnostic b = error("a.yaml", 2, 9);
    Diagnostic a = error("a.yaml", 2, 3);
    List.of(d, c, b, a, c).forEach(problems::add);
    assertEquals(List.of(a, b, c, d), problems.sorted());
  }

  @Test
  void aWarningIsNoError() {
    problems.add(Diagnostic.warning(Code.SYNTAX, Position.ofFile("a.yaml"), "odd"));
    assertFalse(problems.hasErrors());
    problems.add(error("a.yaml", 1, 1));
    assertEquals(1, problems.errors());
  }

  @Test
  void aNameInDoubtCoversWhatIsDottedBelowItInAnyCase() {
    problems.add(error("a.yaml", 1, 1));
    problems.doubt("Line");
    assertTrue(problems.doubts("line"));
    assertTrue(problems.doubts("LINE.beam.pit"));
    assertFalse(problems.doubts("lines"));
    assertFalse(problems.doubts("other.line"));
  }

  @Test
  void allNamesMayBeInDoubt() {
    problems.add(error("a.yaml", 1, 1));
    assertFalse(problems.doubts("any"));
    problems.doubtAll();
    assertTrue(problems.doubts("any"));
  }

  @Test
  void withoutAnErrorNothingIsInDoubt() {
    problems.doubtAll();
    problems.add(Diagnostic.warning(Code.SYNTAX, Position.ofFile("a.yaml"), "odd"));
    assertFalse(problems.doubts("any"));
  }

  @Test
  void aNoteAboutWhatNoFileDeclaresIsLeftOut() {
    Diagnostic plain = error("a.yaml", 1, 1);
    assertEquals(plain, plain.note(Position.ofFile(""), "built in"));
    assertEquals(1, plain.note(Position.ofFile("b.yaml"), "here").notes().size());
  }

  private static Diagnostic error(String file, int line, int column) {
    return Diagnostic.error(Code.SYNTAX, new Position(file, line, column, 1), "wrong");
  }
}
