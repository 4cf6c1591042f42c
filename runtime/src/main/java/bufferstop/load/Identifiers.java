package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * Names a user may give. Source: IEC 61131-3:2003, 2.1.2, identifiers [from memory, not re-read].
 */
final class Identifiers {
  private static final Pattern FORM = Pattern.compile("[A-Za-z](_?[A-Za-z0-9])*");

  /** Heads that mean something of their own, and words of the language. */
  private static final Set<String> RESERVED =
      Set.of(
          "alarms",
          "groups",
          "hazards",
          "circuits",
          "panel",
          "scan",
          "supplies",
          "nodes",
          "and",
          "or",
          "xor",
          "not",
          "mod",
          "true",
          "false",
          "if",
          "then",
          "elsif",
          "else",
          "end_if",
          "case",
          "of",
          "end_case",
          "for",
          "to",
          "by",
          "do",
          "end_for",
          "exit",
          "continue",
          "while",
          "end_while",
          "repeat",
          "until",
          "end_repeat",
          "return",
          "bool",
          "sint",
          "int",
          "dint",
          "lint",
          "usint",
          "uint",
          "udint",
          "ulint",
          "real",
          "lreal",
          "time",
          "byte",
          "word",
          "dword",
          "lword",
          "string",
          "array");

  private Identifiers() {}

  /** Whether the name may be declared; reports it when not. */
  static boolean check(Name name, Diagnostics problems) {
    if (!FORM.matcher(name.text()).matches()) {
      problems.add(
          Diagnostic.error(Code.BAD_NAME, name.position(), "`" + name.text() + "` cannot be a name")
              .expected("a letter, then letters, digits and single underscores"));
      return false;
    }
    if (RESERVED.contains(name.text().toLowerCase(Locale.ROOT))) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_NAME, name.position(), "`" + name.text() + "` is a reserved word")
              .help("choose another name"));
      return false;
    }
    return true;
  }
}
