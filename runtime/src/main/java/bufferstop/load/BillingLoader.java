package bufferstop.load;

import bufferstop.model.Billing;
import bufferstop.model.Billing.Consumer;
import bufferstop.model.Billing.Period;
import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.Tariff;
import bufferstop.model.Tree;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** Reads the {@code billing} section: the calendar, who pays by which tariff, what is billed. */
final class BillingLoader {
  private static final BigDecimal USUAL_TOLERANCE = new BigDecimal("0.5");
  private static final BigDecimal HUNDRED = new BigDecimal(100);

  private final ProjectFiles files;
  private final Sections sections;
  private final Diagnostics problems;
  private final Amounts amounts;
  private final Set<String> unknown = new TreeSet<>(); // consumers, some tariff of theirs
  private final Map<Path, Tariff> read = new TreeMap<>();

  BillingLoader(ProjectFiles files, Sections sections, Diagnostics problems) {
    this.files = files;
    this.sections = sections;
    this.problems = problems;
    amounts = new Amounts(problems);
  }

  /** Null without the section. */
  Billing read(TableReader project) {
    TableReader reader = sections.table(project, "billing", BillingForms.BILLING);
    if (reader == null) {
      return null;
    }
    reader.required("start");
    LocalDateTime start = amounts.moment(reader, "start");
    List<Consumer> consumers = new ArrayList<>();
    reader.required("consumers");
    for (Tree.Entry entry : sections.names(reader, "consumers", "consumers by name")) {
      Consumer consumer = consumer(entry);
      if (consumer != null) {
        consumers.add(consumer);
      }
    }
    List<Period> periods = new ArrayList<>();
    reader.required("periods");
    for (Tree.Entry entry : sections.names(reader, "periods", "periods by name")) {
      Period period = period(entry, start);
      if (period != null) {
        periods.add(period);
      }
    }
    Billing billing =
        new Billing(
            start == null ? LocalDateTime.MIN : start, // said already; the rest is checked
            List.copyOf(consumers),
            reader.names("unbilled"),
            reader.name("supplied"),
            reader.name("lost"),
            amounts.decimal(reader, "tolerance", BigDecimal.ZERO, HUNDRED, USUAL_TOLERANCE),
            List.copyOf(periods));
    reader.finish();
    checkValidity(billing);
    return billing;
  }

  private Consumer consumer(Tree.Entry entry) {
    boolean named = Identifiers.check(entry.key(), problems);
    TableReader reader = TableReader.open(entry, BillingForms.CONSUMER, problems);
    if (reader == null) {
      return null;
    }
    Name meter = reader.requiredName("meter");
    List<Tariff> tariffs = new ArrayList<>();
    Tree given = reader.required("tariff");
    for (Tree each : given == null ? List.<Tree>of() : TableReader.itemsOf(given)) {
      Tariff tariff = tariff(each);
      if (tariff != null) {
        tariffs.add(tariff);
      }
    }
    checkOverlaps(tariffs);
    Consumer consumer =
        new Consumer(entry.key().text(), reader.words("text"), meter, List.copyOf(tariffs));
    reader.finish();
    if (given == null || tariffs.size() < TableReader.itemsOf(given).size()) {
      unknown.add(consumer.name());
    }
    return named && meter != null ? consumer : null;
  }

  /** A tariff of several consumers is read once. */
  private Tariff tariff(Tree given) {
    Path file =
        given instanceof Tree.Scalar s
            ? ProjectFiles.beside(new Name(s.value(), s.position()))
            : null;
    if (file != null && read.containsKey(file)) {
      return read.get(file);
    }
    Tree tree = files.section(given);
    Tariff tariff = tree == null ? null : new TariffLoader(sections, problems).read(tree);
    if (file != null) {
      read.put(file, tariff);
    }
    return tariff;
  }

  private void checkOverlaps(List<Tariff> tariffs) {
    for (int i = 1; i < tariffs.size(); i++) {
      Tariff before = tariffs.get(i - 1);
      Tariff next = tariffs.get(i);
      boolean open = before.until().equals(LocalDate.MAX);
      if (!next.from().equals(LocalDate.MIN) && !next.from().isAfter(before.until())) {
        problems.add(
            Diagnostic.error(
                    Code.BAD_TARIFF,
                    next.position(),
                    "`" + next.name() + "` is valid from " + next.from())
                .expected(
                    open
                        ? "nothing after `" + before.name() + "`, which has no last day"
                        : "a day after " + before.until() + ", the last of `" + before.name() + "`")
                .help(
                    open
                        ? "give `" + before.name() + "` an `until`"
                        : "give a consumer's tariffs in the order of their days"));
      }
    }
  }

  private Period period(Tree.Entry entry, LocalDateTime start) {
    boolean named = Identifiers.check(entry.key(), problems);
    TableReader reader = TableReader.open(entry, BillingForms.PERIOD, problems);
    if (reader == null) {
      return null;
    }
    reader.required("from");
    reader.required("to");
    LocalDateTime from = amounts.moment(reader, "from");
    LocalDateTime to = amounts.moment(reader, "to");
    reader.finish();
    if (from == null || to == null) {
      return null;
    }
    if (start != null && from.isBefore(start)) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_TIMES,
                  reader.tree("from").position(),
                  "period `" + entry.key().text() + "` begins early")
              .expected("not before `start`, " + Amounts.text(start)));
      return null;
    }
    if (!to.isAfter(from)) {
      problems.add(
          Diagnostic.error(
                  Code.BAD_TIMES,
                  reader.tree("to").position(),
                  "period `" + entry.key().text() + "` ends before it has begun")
              .expected(
                  "after `from`, " + Amounts.text(from) + "; the end itself does not belong"));
      return null;
    }
    return named ? new Period(entry.key().text(), from, to, entry.key().position()) : null;
  }

  /** Each day of each period needs one tariff. */
  private void checkValidity(Billing billing) {
    for (Consumer consumer : billing.consumers()) {
      if (unknown.contains(consumer.name())) {
        continue;
      }
      for (Period period : billing.periods()) {
        LocalDate missing = firstWithout(consumer, period);
        if (missing != null) {
          problems.add(
              Diagnostic.error(
                      Code.BAD_TARIFF,
                      period.position(),
                      "`" + consumer.name() + "` has no tariff on " + missing)
                  .expected("a tariff that is valid on every day of the period")
                  .help("add one to `tariff` of `" + consumer.name() + "`, or shorten the period"));
        }
      }
    }
  }

  private static LocalDate firstWithout(Consumer consumer, Period period) {
    LocalDate last = period.to().minusNanos(1).toLocalDate();
    LocalDate day = period.from().toLocalDate();
    while (!day.isAfter(last)) {
      LocalDate each = day;
      Tariff valid =
          consumer.tariffs().stream().filter(t -> t.isValid(each)).findFirst().orElse(null);
      if (valid == null) {
        return day;
      }
      if (!valid.until().isBefore(last)) {
        return null;
      }
      day = valid.until().plusDays(1);
    }
    return null;
  }
}
