package bufferstop.st;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.model.Diagnostic;
import bufferstop.model.Type;
import bufferstop.model.Values;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** BYTE, WORD, DWORD and LWORD. */
class BitStringsTest {
  private final Cells cells =
      Cells.ofEveryType()
          .set("y", 0xA5)
          .set("w", 0x8001)
          .set("w2", 0x00FF)
          .set("dw", 0x8000_0001L)
          .set("lw", -1L)
          .set("i", -1)
          .set("si", -2)
          .set("li", Long.MIN_VALUE)
          .set("ui", 40_000)
          .set("r", -2.0)
          .set("b", 1);

  private String printed(String text) {
    Expression expression = cells.read(text);
    long bits = cells.bits(expression);
    return cells.errors() == 0 ? Values.print(expression.type(), bits) : "error";
  }

  // Source: IEC 61131-3:2003, 2.2.1, Table 4: typed literals [from memory, not re-read]; an
  // unsigned integer may stand for a bit string, B.1.2.1 [from memory, not re-read].
  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "WORD#16#FF, 16#00FF",
    "BYTE#2#1010, 16#0A",
    "DWORD#5, 16#00000005",
    "w OR 16#10, 16#8011",
    "LWORD#16#FFFF_FFFF_FFFF_FFFF, 16#FFFFFFFFFFFFFFFF",
    "16#10 OR w, 16#8011",
    "w AND 255, 16#0001",
    "(16#F0 OR 16#0F) AND w, 16#0001"
  })
  void haveLiterals(String text, String value) {
    assertEquals(value, printed(text));
  }

  // Source: IEC 61131-3:2003, Table 26: bitwise Boolean functions [from memory, not re-read].
  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "NOT y, 16#5A",
    "NOT w, 16#7FFE",
    "NOT dw, 16#7FFFFFFE",
    "NOT lw, 16#0000000000000000",
    "w AND w2, 16#0001",
    "w OR w2, 16#80FF",
    "w XOR w2, 16#80FE",
    "w & NOT w2, 16#8000",
    "w = w2, FALSE",
    "w <> w2, TRUE",
    "lw = 16#FFFF_FFFF_FFFF_FFFF, TRUE",
    "'SEL(b, w, w2)', 16#00FF",
    "(w AND 1) <> 0, TRUE"
  })
  void areJoinedBitByBit(String text, String value) {
    assertEquals(value, printed(text));
  }

  // Source: IEC 61131-3:2003, Table 25: SHL, SHR, ROR, ROL; zeros filled in [from memory, not
  // re-read]; N of the size or more [computed]; N below 0 [project choice].
  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "'SHL(y, 1)', 16#4A",
    "'SHR(y, 1)', 16#52",
    "'ROL(y, 1)', 16#4B",
    "'ROR(y, 1)', 16#D2",
    "'SHL(w, 4)', 16#0010",
    "'SHR(w, 15)', 16#0001",
    "'ROL(w, 4)', 16#0018",
    "'ROR(w, 4)', 16#1800",
    "'SHL(y, 8)', 16#00",
    "'SHR(y, 8)', 16#00",
    "'ROL(y, 8)', 16#A5",
    "'ROL(y, 9)', 16#4B",
    "'ROR(y, 17)', 16#D2",
    "'SHL(lw, 63)', 16#8000000000000000",
    "'SHR(lw, 63)', 16#0000000000000001",
    "'SHL(lw, 64)', 16#0000000000000000",
    "'ROL(lw, 64)', 16#FFFFFFFFFFFFFFFF",
    "'ROR(dw, 1)', 16#C0000000",
    "'SHL(dw, 0)', 16#80000001",
    "'SHL(w, i)', error",
    "'ROR(w, -1)', error",
    "'ROL(y, 0)', 16#A5"
  })
  void areShiftedAndRolled(String text, String value) {
    assertEquals(value, printed(text));
  }

  // Source: IEC 61131-3:2013, conversion of bit data types: binary transfer, the rightmost bits,
  // zeros before them [from memory, not re-read].
  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "BYTE_TO_USINT(y), 165",
    "BYTE_TO_SINT(y), -91",
    "BYTE_TO_INT(y), 165",
    "WORD_TO_UINT(w), 32769",
    "WORD_TO_INT(w), -32767",
    "WORD_TO_BYTE(w), 16#01",
    "INT_TO_WORD(i), 16#FFFF",
    "INT_TO_DWORD(i), 16#0000FFFF",
    "SINT_TO_BYTE(si), 16#FE",
    "UINT_TO_BYTE(ui), 16#40",
    "BOOL_TO_BYTE(b), 16#01",
    "BOOL_TO_LWORD(b), 16#0000000000000001",
    "BYTE_TO_LWORD(y), 16#00000000000000A5",
    "LWORD_TO_ULINT(lw), 18446744073709551615",
    "LWORD_TO_LINT(lw), -1",
    "LINT_TO_LWORD(li), 16#8000000000000000",
    "DWORD_TO_DINT(dw), -2147483647",
    "REAL_TO_DWORD(r), 16#C0000000",
    "DWORD_TO_REAL(16#3FC0_0000), 1.5",
    "DWORD_TO_REAL(16#7FC0_0000), error",
    "LWORD_TO_LREAL(lw), error",
    "LREAL_TO_LWORD(-2.0), 16#C000000000000000"
  })
  void areConvertedAsBits(String text, String value) {
    assertEquals(value, printed(text));
  }

  // Source: bit strings are not numbers, V2 [from memory, not re-read]; no widening of them
  // [project choice].
  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          w + w2   | `w + w2` adds WORD and WORD       | write WORD_TO_UINT(w) + WORD_TO_UINT(w2)
          w < w2   | `w < w2` compares WORD with WORD  | write WORD_TO_UINT(w) < WORD_TO_UINT(w2)
          w > 16#F | `w > 16#F` compares WORD with WORD | write WORD_TO_UINT(w) > 16#F
          w + ui   | `w + ui` adds WORD and UINT       | write WORD_TO_UINT(w) + ui
          w AND i  | `w AND i` joins WORD and INT      | write INT_TO_WORD(i)
          b OR w   | `b OR w` joins BOOL and WORD      | write BOOL_TO_WORD(b)
          w = y   | `w = y` compares WORD with BYTE  | write BYTE_TO_WORD(y)
          ui = w   | `ui = w` compares UINT with WORD  | write UINT_TO_WORD(ui)
          -w       | a sign before WORD `w`            | write `NOT w`
          NOT i    | `i` is INT                        | write `i <> 0`
          SHL(i, 1) | `i` is INT                       | write INT_TO_WORD(i)
          SHL(w, r) | `r` is REAL                      |
          MAX(w, w2) | `w` is WORD                     |
          ABS(w)   | `w` is WORD                       |
          BYTE#256 | `BYTE#256` is outside BYTE        |
          BYTE_TO_BOOL(y) | no function named `BYTE_TO_BOOL` | write `y <> 0`
          """)
  void areNoNumbers(String text, String message, String help) {
    List<Diagnostic> problems = cells.wrong(text);
    assertEquals(1, problems.size());
    assertEquals(message, problems.get(0).message());
    assertEquals(help == null ? "" : help, problems.get(0).help());
  }

  @Test
  void takeTheTypeOfTheirTarget() {
    assertEquals(0xFF, cells.read("16#F0 OR 16#0F", Type.BYTE).constant());
    assertEquals(0xFE, cells.read("SHL(16#7F, 1)", Type.BYTE).constant());
    assertEquals(0xFF0F, cells.read("NOT 16#F0", Type.WORD).constant());
  }
}
