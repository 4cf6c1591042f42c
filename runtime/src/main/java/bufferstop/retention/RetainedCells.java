package bufferstop.retention;

import bufferstop.model.Retained;
import bufferstop.model.Retained.Cell;
import bufferstop.model.SystemCells;
import bufferstop.model.Values;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * What a controller retains, between an image and values that were kept. With moments its clock is
 * kept too: what is brought back goes on as if no time had passed since it was kept.
 */
public final class RetainedCells {
  private static final String CLOCK = "scan.time";

  private final List<Retained> all;
  private final int[] indexes;

  public RetainedCells(List<Retained> declared) {
    all = new ArrayList<>(declared);
    if (declared.stream().anyMatch(Retained::hasMoments)) {
      List<Cell> clock = List.of(new Cell(SystemCells.TIME, false));
      all.add(new Retained(CLOCK, "TIME", clock, null));
    }
    indexes = all.stream().flatMap(item -> item.cells().stream()).mapToInt(Cell::index).toArray();
  }

  /** Whether nothing is retained. */
  public boolean isEmpty() {
    return all.isEmpty();
  }

  /** Whether the clock is kept, as the last of all cells. */
  boolean hasClock() {
    return !all.isEmpty() && all.get(all.size() - 1).name().equals(CLOCK);
  }

  /** The cells, one thing after the other. */
  int[] indexes() {
    return indexes;
  }

  /**
   * Values to keep.
   *
   * @param bits of the cells at {@link #indexes}
   */
  List<RetainedValue> values(long[] bits) {
    List<RetainedValue> values = new ArrayList<>();
    int at = 0;
    for (Retained item : all) {
      List<Long> own = new ArrayList<>();
      for (int i = 0; i < item.cells().size(); i++) {
        own.add(bits[at++]);
      }
      values.add(new RetainedValue(item.name(), item.type(), List.copyOf(own)));
    }
    return values;
  }

  /** Values to keep of an image. */
  public List<RetainedValue> take(long[] image) {
    long[] bits = new long[indexes.length];
    for (int i = 0; i < bits.length; i++) {
      bits[i] = image[indexes[i]];
    }
    return values(bits);
  }

  /**
   * Writes values into an image that is fresh from a start, by name and type: what still fits is
   * taken, the rest is told.
   *
   * @param said takes a line about each value that is dropped
   * @return how many were taken
   */
  public int restore(long[] image, List<RetainedValue> values, List<String> said) {
    Map<String, Retained> byName = new TreeMap<>();
    all.forEach(item -> byName.put(key(item.name()), item));
    long clock = 0;
    for (RetainedValue value : values) {
      clock = value.name().equals(CLOCK) ? value.bits().get(0) : clock;
    }
    int taken = 0;
    for (RetainedValue value : values) {
      Retained item = byName.get(key(value.name()));
      if (value.name().equals(CLOCK)) {
        continue;
      }
      String misfit = item == null ? "but nothing of that name is any more" : misfit(item, value);
      if (misfit.isEmpty()) {
        write(image, item, value, clock);
        taken++;
      } else {
        said.add("`" + value.name() + "` was retained, " + misfit);
      }
    }
    return taken;
  }

  private static String key(String name) {
    return name.toLowerCase(Locale.ROOT);
  }

  /** Why a value is not taken; empty when it is. */
  private static String misfit(Retained item, RetainedValue value) {
    boolean same = item.type().equalsIgnoreCase(value.type());
    if (!same || item.cells().size() != value.bits().size()) {
      String was = word(value.type());
      String is = word(item.type());
      return was.equals(is)
          ? "and is made otherwise now (" + is + "): it starts anew"
          : "as " + was + ", and is " + is + " now: it starts anew";
    }
    boolean admitted = item.limits() == null || item.limits().admits(value.bits().get(0));
    return admitted
        ? ""
        : "and "
            + Values.print(item.limits().type(), value.bits().get(0))
            + " is outside its range now: it starts anew";
  }

  /** A type without the mark of its inner form. */
  private static String word(String type) {
    return type.contains(":") ? type.substring(0, type.indexOf(':')) : type;
  }

  private static void write(long[] image, Retained item, RetainedValue value, long clock) {
    for (int i = 0; i < item.cells().size(); i++) {
      Cell cell = item.cells().get(i);
      long bits = value.bits().get(i);
      image[cell.index()] = cell.moment() ? bits - clock : bits;
    }
  }
}
