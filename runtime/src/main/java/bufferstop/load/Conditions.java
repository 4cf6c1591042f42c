package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;

/** Reads entries that are a name and the condition it stands for. */
final class Conditions {
  private Conditions() {}

  /** The condition's text; null after a diagnostic when there is none. */
  static SourceText of(Tree.Entry entry, Diagnostics problems) {
    if (entry.value() instanceof Tree.Scalar scalar && !scalar.value().isEmpty()) {
      return scalar.text();
    }
    problems.add(
        Diagnostic.error(
                Code.NOTHING_GIVEN,
                TableReader.place(entry),
                "`" + entry.key().text() + "` has no condition")
            .expected("a BOOL expression"));
    return null;
  }
}
