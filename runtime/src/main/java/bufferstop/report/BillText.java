package bufferstop.report;

import bufferstop.billing.Balance;
import bufferstop.billing.Bill;
import bufferstop.billing.Moments;
import bufferstop.billing.Usage;
import bufferstop.model.Csv;
import bufferstop.model.Tariff;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;

/** Bills and the energy balance as text and as CSV, every line with its arithmetic. */
public final class BillText {
  private static final int WHAT = 18;
  private static final int ARITHMETIC = 46;
  private static final int AMOUNT = 14;
  private static final List<String> COLUMNS =
      List.of(
          "consumer",
          "from",
          "to",
          "tariff",
          "line",
          "quantity",
          "unit",
          "price",
          "exact",
          "amount",
          "arithmetic");

  private BillText() {}

  /** A bill for people. */
  public static String text(Bill bill) {
    StringBuilder text = new StringBuilder();
    Usage usage = bill.usage();
    String name = usage.consumer().name();
    text.append("Bill for ").append(name);
    text.append(usage.consumer().text().isEmpty() ? "" : ", " + usage.consumer().text());
    text.append("\nperiod    ").append(Moments.text(usage.period().from())).append(" to ");
    text.append(Moments.text(usage.period().to()));
    text.append(", local time without daylight saving\n");
    Tariff shown = null;
    for (Bill.Line line : bill.lines()) {
      if (line.tariff() != shown) {
        shown = line.tariff();
        text.append(part(usage, shown)).append('\n');
      }
      text.append(line(line.what(), arithmetic(line), line.amount()));
      text.append(line.how().isEmpty() ? "" : "    " + line.how() + "\n");
    }
    text.append(line("subtotal", "", bill.subtotal()));
    for (Bill.Line tax : bill.taxes()) {
      text.append(line(tax.what(), arithmetic(tax), tax.amount()));
    }
    boolean rounded = bill.subtotal().add(sum(bill.taxes())).compareTo(bill.total()) != 0;
    String exact = rounded ? plain(bill.subtotal().add(sum(bill.taxes()))) + " rounded" : "";
    String total = line("total", exact, bill.total());
    String currency = bill.currency().isEmpty() ? "" : " " + bill.currency();
    return text.append(total.stripTrailing()).append(currency).append('\n').toString();
  }

  private static BigDecimal sum(List<Bill.Line> lines) {
    return lines.stream().map(Bill.Line::amount).reduce(BigDecimal.ZERO, BigDecimal::add);
  }

  private static String part(Usage usage, Tariff tariff) {
    Usage.Part part =
        usage.parts().stream().filter(p -> p.tariff() == tariff).findFirst().orElseThrow();
    return "tariff    %s, %s d\nmetered   %s kWh, %s kvarh, %s kVAh, exported %s kWh\n"
        .formatted(
            tariff.name(),
            part.days(),
            Balance.kilo(part.imported()),
            Balance.kilo(part.reactive()),
            Balance.kilo(part.apparent()),
            Balance.kilo(part.exported()));
  }

  private static String arithmetic(Bill.Line line) {
    String times = line.unit().equals("%") ? " % of " : " " + line.unit() + " x ";
    return plain(line.quantity()) + times + plain(line.price()) + " = " + plain(line.exact());
  }

  private static String plain(BigDecimal value) {
    return value.toPlainString();
  }

  private static String line(String what, String arithmetic, BigDecimal amount) {
    String format = "%-" + WHAT + "s%-" + ARITHMETIC + "s%" + AMOUNT + "s\n";
    return format.formatted(what, arithmetic, plain(amount));
  }

  /** A bill as a table, RFC 4180. */
  public static String csv(Bill bill) {
    StringBuilder csv = new StringBuilder(Csv.line(COLUMNS));
    bill.lines().forEach(line -> csv.append(Csv.line(record(bill, line))));
    bill.taxes().forEach(line -> csv.append(Csv.line(record(bill, line))));
    List<String> total = new ArrayList<>(head(bill));
    total.addAll(List.of("", "total", "", bill.currency(), "", "", plain(bill.total()), ""));
    return csv.append(Csv.line(total)).toString();
  }

  private static List<String> head(Bill bill) {
    Usage usage = bill.usage();
    return List.of(
        usage.consumer().name(),
        Moments.text(usage.period().from()),
        Moments.text(usage.period().to()));
  }

  private static List<String> record(Bill bill, Bill.Line line) {
    List<String> fields = new ArrayList<>(head(bill));
    fields.addAll(
        List.of(
            line.tariff().name(),
            line.what(),
            plain(line.quantity()),
            line.unit(),
            plain(line.price()),
            plain(line.exact()),
            plain(line.amount()),
            line.how()));
    return fields;
  }

  /** The energy balance for people. */
  public static String text(Balance balance) {
    StringBuilder text = new StringBuilder("Energy balance, kWh\n");
    text.append(row("supplied", balance.supplied()));
    for (Balance.Metered meter : balance.meters()) {
      String how = meter.exported() == 0 ? "" : ", exported " + Balance.kilo(meter.exported());
      String what = meter.name() + (meter.billed() ? "" : ", not billed") + how;
      text.append(row("- " + what, meter.net()));
    }
    text.append(row("- lost in the network", balance.lost()));
    text.append(row("= difference", balance.difference()));
    text.append("tolerance ").append(Balance.kilo(balance.tolerance())).append(" kWh: ");
    text.append(balance.closes() ? "the balance closes\n" : "the balance does not close\n");
    balance.warnings().forEach(w -> text.append("warning: ").append(w).append('\n'));
    return text.toString();
  }

  private static String row(String what, long wattHours) {
    return "%-50s%14s\n".formatted(what, Balance.kilo(wattHours));
  }
}
