package bufferstop.railway;

import bufferstop.railway.LineData.UncouplerData;
import bufferstop.spi.Stateful;
import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.List;

/**
 * What opens couplers: uncouplers in the track, while raised, and locomotives that open their own,
 * by command or by the voltage on the track. A coupler parts only while it is not in tension, and
 * does not couple while something holds it open (reference 5.4, project choice).
 */
final class Uncouplers implements Stateful {
  private final List<UncouplerData> data;
  private final Stock stock;
  private final Happenings happenings;
  private final boolean[] raised;
  private final boolean[] jammed;
  private final boolean[] opens; // by vehicle: its own couplers
  private boolean anyRaised;
  private boolean anyOpens;
  private boolean willNotPart;

  Uncouplers(List<UncouplerData> data, Stock stock, Happenings happenings) {
    this.data = data;
    this.stock = stock;
    this.happenings = happenings;
    raised = new boolean[data.size()];
    jammed = new boolean[data.size()];
    opens = new boolean[stock.count];
  }

  int count() {
    return data.size();
  }

  void beginStep() {
    anyRaised = false;
    anyOpens = false;
  }

  void lift(int n, boolean lifted) {
    raised[n] = lifted && !jammed[n];
    anyRaised |= raised[n];
  }

  /** A locomotive opens its own couplers, or lets them close. */
  void open(int vehicle, boolean open) {
    opens[vehicle] = open;
    anyOpens |= open;
  }

  /** Fault: it does not rise. */
  void jam(int n, boolean jam) {
    jammed[n] = jam;
  }

  /** Fault: nothing parts a coupler but force. */
  void refuseParting(boolean refused) {
    willNotPart = refused;
  }

  /** Whether something holds the coupler after a place open. */
  boolean holdsOpen(int k) {
    if (anyOpens && (opens[stock.who[k]] || opens[stock.who[k + 1]])) {
      return true;
    }
    if (!anyRaised) {
      return false;
    }
    couplerPlace(k);
    int segment = stock.placement.foundSegment();
    double offset = stock.placement.foundOffset();
    for (int n = 0; n < raised.length; n++) {
      UncouplerData each = data.get(n);
      if (raised[n]
          && each.place().segment() == segment
          && Math.abs(offset - each.place().offsetMetres()) <= each.toleranceMetres()) {
        return true;
      }
    }
    return false;
  }

  /** Looks up the place of the coupler after place k, as it is within the step. */
  private void couplerPlace(int k) {
    int i = stock.who[k];
    double ahead = stock.half[i] + (stock.low(k + 1) - stock.high(k)) / 2 + stock.moved[k];
    stock.placement.locate(i, ahead * stock.facing[k]);
  }

  void act(int row, Forces forces) {
    if (!anyRaised && !anyOpens || willNotPart) {
      return;
    }
    for (int k = stock.first[row]; k < stock.last[row]; k++) {
      if (stock.coupled[k] && !forces.inTension(k) && holdsOpen(k)) {
        stock.coupled[k] = false;
        boolean bunched = stock.contact[k] == Stock.RIGID || stock.contact[k] == Stock.PUSH;
        stock.contact[k] = bunched ? Stock.PUSH : Stock.FREE;
        couplerPlace(k);
        Placement placement = stock.placement;
        happenings.happened(
            Happening.PARTED,
            placement.track.post(placement.foundSegment(), placement.foundOffset()));
      }
    }
  }

  @Override
  public void save(DataOutput to) throws IOException {
    for (boolean jam : jammed) {
      to.writeBoolean(jam);
    }
    for (boolean open : opens) {
      to.writeBoolean(open);
    }
    to.writeBoolean(willNotPart);
  }

  @Override
  public void restore(DataInput from) throws IOException {
    for (int n = 0; n < jammed.length; n++) {
      jammed[n] = from.readBoolean();
    }
    for (int i = 0; i < opens.length; i++) {
      opens[i] = from.readBoolean();
    }
    willNotPart = from.readBoolean();
  }
}
