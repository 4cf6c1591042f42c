package bufferstop.rig;

import bufferstop.billing.Reading;
import bufferstop.model.Billing;
import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.MeterNames;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Scope;
import bufferstop.model.Symbol;
import java.util.ArrayList;
import java.util.List;

/**
 * Where the values of a project's meters are found.
 *
 * @param consumers in their order
 * @param unbilled in their order
 * @param supplied cell of the energy given, or -1
 * @param lost cell of the energy lost, or -1
 */
record BillingMeters(List<Meter> consumers, List<Meter> unbilled, int supplied, int lost) {

  /** Cells of one meter. */
  record Meter(
      String name, int imported, int exported, int reactive, int apparent, int powerFailed) {

    Reading read(long[] cells) {
      return new Reading(
          whole(cells, imported),
          whole(cells, exported),
          whole(cells, reactive),
          whole(cells, apparent),
          powerFailed >= 0 && cells[powerFailed] != 0);
    }
  }

  /** A register as its display shows it: whole units, the rest cut off. */
  static long whole(long[] cells, int cell) {
    return Math.floorDiv(Math.round(Double.longBitsToDouble(cells[cell]) * 1000), 1000L);
  }

  /** Finds them; null after a diagnostic. */
  static BillingMeters of(Billing billing, Scope scope, Diagnostics problems) {
    Finder finder = new Finder(scope, problems);
    List<Meter> consumers =
        billing.consumers().stream().map(c -> finder.meter(c.name(), c.meter())).toList();
    List<Meter> unbilled = new ArrayList<>();
    billing.unbilled().forEach(m -> unbilled.add(finder.meter(m.text(), m)));
    int supplied = billing.supplied() == null ? -1 : finder.value(billing.supplied());
    int lost = billing.lost() == null ? -1 : finder.value(billing.lost());
    return finder.whole ? new BillingMeters(consumers, unbilled, supplied, lost) : null;
  }

  private static final class Finder {
    private final Scope scope;
    private final Diagnostics problems;
    private boolean whole = true;

    Finder(Scope scope, Diagnostics problems) {
      this.scope = scope;
      this.problems = problems;
    }

    private Meter meter(String name, Name head) {
      List<String> tails =
          List.of(
              MeterNames.IMPORTED, MeterNames.EXPORTED, MeterNames.REACTIVE, MeterNames.APPARENT);
      List<Symbol> found = tails.stream().map(t -> scope.find(head.text() + t)).toList();
      if (found.contains(null) || !found.stream().allMatch(s -> s.type().isReal())) {
        whole = false;
        if (!problems.doubts(head.text())) {
          problems.add(
              Diagnostic.error(
                      Code.UNKNOWN_NAME, head.position(), "no meter named `" + head.text() + "`")
                  .expected("a plant's meter, whose values are ports such as METER.imported")
                  .help(NearNames.question(head.text(), MeterNames.heads(scope))));
        }
        return null;
      }
      Symbol failed = scope.find(head.text() + MeterNames.POWER_FAILED);
      return new Meter(
          name,
          found.get(0).index(),
          found.get(1).index(),
          found.get(2).index(),
          found.get(3).index(),
          failed == null ? -1 : failed.index());
    }

    private int value(Name name) {
      Symbol symbol = scope.find(name.text());
      if (symbol != null && symbol.type().isReal()) {
        return symbol.index();
      }
      whole = false;
      if (!problems.doubts(name.text())) {
        problems.add(
            Diagnostic.error(
                    symbol == null ? Code.UNKNOWN_NAME : Code.WRONG_TYPE,
                    name.position(),
                    symbol == null
                        ? "no point named `" + name.text() + "`"
                        : "`" + name.text() + "` is " + symbol.typeName())
                .expected("an energy in Wh, REAL or LREAL")
                .help(NearNames.question(name.text(), scope.names())));
      }
      return -1;
    }
  }
}
