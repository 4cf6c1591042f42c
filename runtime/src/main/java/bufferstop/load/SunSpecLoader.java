package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.SourceText;
import bufferstop.model.SunSpecMeter;
import bufferstop.model.SunSpecMeter.Quantity;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** Reads {@code sunspec}: which meter a unit shows, and what it says of itself. */
final class SunSpecLoader {
  private static final int LONG_TEXT = 32;
  private static final int SHORT_TEXT = 16;
  private static final List<Integer> BASES = List.of(0, 40_000, 50_000);
  private static final int MOST_EXPONENT = 10;

  private final Sections sections;
  private final Diagnostics problems;

  SunSpecLoader(Sections sections, Diagnostics problems) {
    this.sections = sections;
    this.problems = problems;
  }

  /** Null after a diagnostic that leaves nothing to go on with. */
  SunSpecMeter read(TableReader unit) {
    TableReader reader = sections.table(unit, "sunspec", ModbusForms.SUNSPEC);
    if (reader == null) {
      return null;
    }
    Name port = reader.requiredName("meter");
    reader.required("phases");
    long phases = reader.whole("phases", 0, 1, 3);
    if (phases == 2) {
      problems.add(
          Diagnostic.error(Code.OUT_OF_RANGE, reader.tree("phases").position(), "`phases` is 2")
              .expected("1 or 3"));
    }
    String manufacturer = text(reader, "manufacturer", LONG_TEXT, true);
    String model = text(reader, "model", LONG_TEXT, true);
    String serial = text(reader, "serial", LONG_TEXT, true);
    SunSpecMeter meter =
        port == null
            ? null
            : new SunSpecMeter(
                port,
                phases == 3,
                manufacturer,
                model,
                text(reader, "options", SHORT_TEXT, false),
                text(reader, "version", SHORT_TEXT, false),
                serial,
                base(reader),
                scales(reader));
    if (port == null) {
      List.of("options", "version", "base", "scale").forEach(reader::tree);
    }
    reader.finish();
    return meter;
  }

  private String text(TableReader reader, String key, int most, boolean required) {
    SourceText text = required ? reader.requiredText(key) : reader.text(key);
    if (text == null) {
      return "";
    }
    boolean ascii = text.value().chars().allMatch(c -> c >= ' ' && c <= '~');
    if (!ascii || text.value().length() > most) {
      problems.add(
          Diagnostic.error(
                  Code.OUT_OF_RANGE,
                  text.whole(),
                  ascii
                      ? "`" + key + "` has " + text.value().length() + " characters"
                      : "`" + key + "` is not all ASCII, which clients expect")
              .expected("at most " + most + " ASCII characters"));
      return "";
    }
    return text.value();
  }

  private int base(TableReader reader) {
    int usual = BASES.get(1);
    int base = (int) reader.whole("base", usual, 0, BASES.get(2));
    if (!BASES.contains(base)) {
      problems.add(
          Diagnostic.error(Code.OUT_OF_RANGE, reader.tree("base").position(), "`base` is " + base)
              .expected("0, 40000 or 50000, where clients look for the marker"));
      return usual;
    }
    return base;
  }

  private Map<Quantity, Integer> scales(TableReader reader) {
    Map<Quantity, Integer> scales = SunSpecMeter.usualScales();
    TableReader given = sections.table(reader, "scale", ModbusForms.SUNSPEC_SCALE);
    if (given != null) {
      for (Quantity quantity : Quantity.values()) {
        String key = quantity.name().toLowerCase(Locale.ROOT);
        int usual = scales.get(quantity);
        scales.put(quantity, (int) given.whole(key, usual, -MOST_EXPONENT, MOST_EXPONENT));
      }
      given.finish();
    }
    return scales;
  }
}
