package bufferstop.program;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bufferstop.engine.SmallController;
import bufferstop.model.StringCells;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * Random logic over enumerations, arrays, bit strings and STRINGs against the same in Java; {@link
 * SmallController} compares compiled with as it stands in every scan. A failure prints its seed;
 * give it back with -Dtypes.seed.
 */
class TypesProperties {
  private static final long SEED = Long.getLong("types.seed", System.nanoTime());
  private static final int SIZE = 7;
  private static final int LEAST = -2;
  private static final int LENGTH = 11;

  private final SplittableRandom random = new SplittableRandom(SEED);

  /** What a statement does. */
  private interface Step {
    void run();
  }

  // the same state in Java
  private final long[] numbers = new long[SIZE];
  private final long[] words = new long[2];
  private final String[] texts = {"", "", ""};
  private int colour;
  private long errors;
  private long index;

  @Test
  void logicOverAllTypesAgreesWithJava() {
    for (int program = 0; program < 25; program++) {
      Arrays.fill(numbers, 0);
      Arrays.fill(words, 0);
      Arrays.fill(texts, "");
      colour = 0;
      errors = 0;
      StringBuilder logic = new StringBuilder();
      List<Step> steps = new ArrayList<>();
      for (int i = 0; i < 12; i++) {
        steps.add(statement(logic));
      }
      SmallController on = SmallController.of(POINTS + logic);
      for (int scan = 0; scan < 100; scan++) {
        index = random.nextInt(-4, 7);
        on.set("i", index).scan();
        steps.forEach(Step::run);
        check(on, "seed " + SEED + ", scan " + scan + "\n" + logic);
      }
    }
  }

  private static final String POINTS =
      """
      types:
        colour: [red, green, blue]
      operator:
        i: {type: INT}
      internal:
        a: {type: "ARRAY[-2..4] OF INT"}
        t: {type: "ARRAY[0..2] OF STRING[11]"}
        v: {type: WORD}
        w: {type: WORD}
        c: {type: colour}
      logic: |
      """;

  private void check(SmallController on, String about) {
    for (int i = 0; i < SIZE; i++) {
      assertEquals(numbers[i], on.get("a[" + (LEAST + i) + "]"), about);
    }
    for (int i = 0; i < texts.length; i++) {
      int at = on.rig().layout().field().find("t[" + i + "]").index();
      assertEquals(texts[i], StringCells.unpack(on.rig().engine().cells(), at), about);
    }
    assertEquals(words[0], on.get("v"), about);
    assertEquals(words[1], on.get("w"), about);
    assertEquals(colour, on.get("c"), about);
    assertEquals(errors, on.get("scan.errors"), about);
  }

  private Step statement(StringBuilder logic) {
    logic.append("  ");
    Step step =
        switch (random.nextInt(6)) {
          case 0 -> element(logic);
          case 1 -> bits(logic);
          case 2 -> shift(logic);
          case 3 -> text(logic);
          case 4 -> colours(logic);
          default -> joined(logic);
        };
    logic.append('\n');
    return step;
  }

  /** Both indices run with i and may lie outside; so may the sum. */
  private Step element(StringBuilder logic) {
    int to = random.nextInt(-1, 2);
    int from = random.nextInt(-1, 2);
    int plus = random.nextInt(-3000, 3000);
    logic.append("a[i + %d] := a[i + %d] + %d;".formatted(to, from, plus));
    return () -> {
      long source = index + from - LEAST;
      long target = index + to - LEAST;
      boolean sourceGood = source >= 0 && source < SIZE;
      long sum = (sourceGood ? numbers[(int) source] : 0) + plus;
      boolean sumGood = sum == (short) sum;
      errors += (sourceGood ? 0 : 1) + (sumGood ? 0 : 1);
      if (sourceGood && sumGood) {
        if (target >= 0 && target < SIZE) {
          numbers[(int) target] = sum;
        } else {
          errors++;
        }
      }
    };
  }

  private Step bits(StringBuilder logic) {
    int target = random.nextInt(2);
    int mask = random.nextInt(0x10000);
    String operator = List.of("AND", "OR", "XOR").get(random.nextInt(3));
    logic.append(
        "%s := v %s (NOT w %s 16#%X);".formatted(target == 0 ? "v" : "w", operator, "OR", mask));
    return () -> {
      long right = ~words[1] & 0xFFFF | mask;
      words[target] =
          switch (operator) {
            case "AND" -> words[0] & right;
            case "OR" -> words[0] | right;
            default -> words[0] ^ right;
          };
    };
  }

  private Step shift(StringBuilder logic) {
    String name = List.of("SHL", "SHR", "ROL", "ROR").get(random.nextInt(4));
    logic.append("w := %s(INT_TO_WORD(a[0]) XOR v, i);".formatted(name));
    return () -> {
      if (index < 0) {
        errors++;
        return;
      }
      long bits = (numbers[-LEAST] & 0xFFFF) ^ words[0];
      int by = (int) index;
      words[1] =
          0xFFFF
              & switch (name) {
                case "SHL" -> bits << by;
                case "SHR" -> bits >> by;
                case "ROL" -> bits << by | bits >> 16 - by;
                default -> bits >> by | bits << 16 - by;
              };
    };
  }

  private Step text(StringBuilder logic) {
    int target = random.nextInt(3);
    logic.append("t[%d] := MID(t[i], 4, 2);".formatted(target));
    return () -> {
      if (index < 0 || index > 2) {
        errors++;
        return;
      }
      String from = texts[(int) index];
      texts[target] = from.substring(Math.min(1, from.length()), Math.min(5, from.length()));
    };
  }

  private Step joined(StringBuilder logic) {
    int target = random.nextInt(3);
    int right = random.nextInt(3);
    logic.append("t[%d] := CONCAT(INT_TO_STRING(a[1]), '-', t[%d]);".formatted(target, right));
    return () -> {
      String all = numbers[1 - LEAST] + "-" + texts[right];
      texts[target] = all.substring(0, Math.min(LENGTH, all.length()));
    };
  }

  private Step colours(StringBuilder logic) {
    int least = random.nextInt(-1, 3);
    logic.append(
        "IF c = green AND i > %d THEN c := blue; ELSIF t[0] < t[1] THEN c := red; ".formatted(least)
            + "ELSE c := SEL(LEN(t[2]) > 3, green, colour#red); END_IF;");
    return () -> {
      if (colour == 1 && index > least) {
        colour = 2;
      } else if (texts[0].compareTo(texts[1]) < 0) {
        colour = 0;
      } else {
        colour = texts[2].length() > 3 ? 0 : 1;
      }
    };
  }
}
