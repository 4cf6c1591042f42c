package bufferstop.scenario;

import bufferstop.model.Fault;
import bufferstop.model.Scenario;
import bufferstop.model.Scenario.Assignment;
import bufferstop.model.Scenario.Clear;
import bufferstop.model.Scenario.Deed;
import bufferstop.model.Scenario.Force;
import bufferstop.model.Scenario.Inject;
import bufferstop.model.Scenario.Press;
import bufferstop.model.Scenario.Pulse;
import bufferstop.model.Scenario.Ramp;
import bufferstop.model.Scenario.Release;
import bufferstop.model.Scenario.Restart;
import bufferstop.model.Scenario.Skip;
import bufferstop.model.Scenario.Turn;
import bufferstop.model.Scenario.Unforce;
import bufferstop.model.Scenario.Write;
import bufferstop.model.StringCells;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.model.Values;
import java.util.Locale;
import java.util.regex.Pattern;

/** A deed as a scenario file writes it in braces, so that what is told can be done again. */
public final class DeedText {
  private static final long MICROS_PER_MILLI = 1000;

  /** What can neither end in braces nor be taken for anything but text. */
  private static final Pattern PLAIN = Pattern.compile("[\\w.+-][^\\[\\]{},:\"'\\\\]*(?<! )");

  private DeedText() {}

  /** Keys and values without the braces around them: {@code press: panel.start}. */
  public static String of(Deed deed) {
    if (deed instanceof Write write) {
      return "write: " + assignments(write.values()) + (write.refused() ? ", refused: TRUE" : "");
    } else if (deed instanceof Press press) {
      return "press: " + press.element().text() + lasting(press.forMicros());
    } else if (deed instanceof Release release) {
      return "release: " + release.element().text();
    } else if (deed instanceof Turn turn) {
      return "turn: " + turn.element().text() + ", to: " + turn.to().text();
    } else if (deed instanceof Clear clear) {
      return "clear: {" + target(clear.on()) + "}";
    } else if (deed instanceof Inject inject) {
      return fault(inject.fault()) + lasting(inject.forMicros());
    } else if (deed instanceof Ramp ramp) {
      String ends = ", from: " + ramp.from().value() + ", to: " + ramp.to().value();
      String over = "}, over: " + time(ramp.overMicros());
      return "ramp: {" + place(ramp.on()) + ends + over + lasting(ramp.forMicros());
    } else if (deed instanceof Pulse pulse) {
      String value = pulse.value() == null ? "" : ", value: " + pulse.value().value();
      return "pulse: {" + place(pulse.on()) + value + "}" + lasting(pulse.forMicros());
    } else if (deed instanceof Force force) {
      return "force: " + assignments(force.values());
    } else if (deed instanceof Unforce unforce) {
      return "unforce: " + (unforce.point() == null ? "all" : unforce.point().text());
    } else if (deed instanceof Restart restart) {
      return "restart: " + (restart.cold() ? "cold" : "warm") + lasting(restart.forMicros());
    }
    return "skip: " + ((Skip) deed).periods();
  }

  private static String place(Scenario.Place on) {
    return (on.wire() ? "wire: " : "point: ") + on.name().text();
  }

  /** Values of points as a deed gives them, to be put in braces: {@code start: TRUE}. */
  public static String assignment(Symbol point, long[] cells) {
    return scalar(point.name()) + ": " + scalar(literal(point, cells));
  }

  /** A value of a point as a literal that reads back as it was; an enumeration's by its name. */
  public static String literal(Symbol point, long[] cells) {
    return point.type() == Type.STRING
        ? StringCells.literal(StringCells.unpack(cells, point.index()))
        : literal(point, cells[point.index()]);
  }

  /** The same of a point that takes one cell. */
  public static String literal(Symbol point, long bits) {
    return point.enumeration() == null
        ? literal(point.type(), bits)
        : point.enumeration().print(bits);
  }

  /** A text as YAML reads it in braces: as it stands, or in double quotes where it must be. */
  public static String scalar(String text) {
    return PLAIN.matcher(text).matches() ? text : quoted(text);
  }

  /** A text in double quotes, as YAML and JSON read it. */
  public static String quoted(String text) {
    StringBuilder quoted = new StringBuilder("\"");
    for (char c : text.toCharArray()) {
      switch (c) {
        case '"' -> quoted.append("\\\"");
        case '\\' -> quoted.append("\\\\");
        case '\n' -> quoted.append("\\n");
        case '\r' -> quoted.append("\\r");
        case '\t' -> quoted.append("\\t");
        default -> {
          boolean shown = c >= ' ' && c < 0x7F;
          quoted.append(shown ? String.valueOf(c) : "\\u%04x".formatted((int) c));
        }
      }
    }
    return quoted.append('"').toString();
  }

  /** A value as a literal of its type that reads back as it was, to the last bit. */
  public static String literal(Type type, long bits) {
    return switch (type) {
      case BOOL -> bits != 0 ? "TRUE" : "FALSE";
      case REAL, LREAL -> Double.toString(Double.longBitsToDouble(bits));
      case TIME -> time(bits);
      case ULINT -> Long.toUnsignedString(bits);
      case BYTE, WORD, DWORD, LWORD -> Values.print(type, bits);
      default -> Long.toString(bits);
    };
  }

  /** A time as a literal, exact to the microsecond. */
  public static String time(long micros) {
    long millis = micros / MICROS_PER_MILLI;
    long rest = Math.abs(micros % MICROS_PER_MILLI);
    String sign = micros < 0 && millis == 0 ? "-" : "";
    String whole = "T#" + sign + millis;
    return rest == 0 ? whole + "ms" : whole + String.format(Locale.ROOT, ".%03dms", rest);
  }

  private static String assignments(Iterable<Assignment> values) {
    StringBuilder text = new StringBuilder("{");
    for (Assignment value : values) {
      text.append(text.length() > 1 ? ", " : "");
      text.append(scalar(value.point().text())).append(": ").append(scalar(value.value().value()));
    }
    return text.append("}").toString();
  }

  /** A fault that is set, until it is cleared. */
  public static String fault(Fault fault) {
    String value = fault.value() == null ? "" : ", value: " + fault.value().value();
    boolean chatter = fault.mode().text().equalsIgnoreCase("chatter");
    String time =
        fault.micros() == 0 ? "" : (chatter ? ", every: " : ", by: ") + time(fault.micros());
    return "fault: {" + target(fault.on()) + ", mode: " + fault.mode().text() + value + time + "}";
  }

  private static String target(Fault.Target on) {
    return on.place().name().toLowerCase(Locale.ROOT) + ": " + on.name().text();
  }

  private static String lasting(long micros) {
    return micros == 0 ? "" : ", for: " + time(micros);
  }
}
