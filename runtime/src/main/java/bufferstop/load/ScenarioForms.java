package bufferstop.load;

import static bufferstop.model.Form.Key.key;
import static bufferstop.model.Form.Key.required;

import bufferstop.model.Form;
import bufferstop.model.Form.Key;
import bufferstop.model.Shape;
import bufferstop.model.Shape.Filled;
import bufferstop.model.Shape.ListOf;
import bufferstop.model.Shape.Named;
import bufferstop.model.Shape.Of;
import bufferstop.model.Shape.Whole;
import java.util.List;

/** The keys of scenarios: what is done, what is expected. */
final class ScenarioForms {
  private static final Shape WRITTEN = new Named(Shape.LITERAL, false);
  private static final List<String> PLACES = List.of("wire", "supply", "node", "plant");
  private static final List<String> ENDS = List.of("point", "wire");

  static final Form FAULT =
      Form.of("fault", "a fault")
          .and(places())
          .and(
              key("mode", Shape.NAME, "what is wrong; may be left out of a supply or node")
                  .example("open"),
              key("value", Shape.LITERAL, "how much, for faults that take a value"),
              key("by", Shape.TIME, "for delay and late"),
              key("every", Shape.TIME, "for chatter"))
          .exactlyOne(PLACES)
          .exactlyOne(List.of("mode"), List.of("wire", "plant"));

  static final Form CLEARED =
      Form.of("cleared", "what is cleared").and(places()).exactlyOne(PLACES);

  static final Form RAMP =
      Form.of(
              "ramp",
              "a ramp",
              key("point", Shape.NAME, "an operator point, written once a scan"),
              key("wire", Shape.NAME, "or a wire, held at the value"),
              required("from", Shape.LITERAL, "first value").example("0.0"),
              required("to", Shape.LITERAL, "last value").example("1.0"))
          .exactlyOne(ENDS);

  static final Form PULSE =
      Form.of(
              "pulse",
              "a pulse",
              key("point", Shape.NAME, "an operator point"),
              key("wire", Shape.NAME, "or a wire, held at the value"),
              key("value", Shape.LITERAL, "by default TRUE"))
          .exactlyOne(ENDS);

  static final Form STIMULUS =
      Form.of(
              "stimulus",
              "a stimulus",
              key("id", Shape.TEXT, "what others follow it by").example("first"),
              key("at", Shape.TIME, "when, from the beginning"),
              key("when", Shape.FORMULA, "or in the first scan after this shows"),
              key("follows", Shape.TEXT, "or after the stimulus of that id above").example("first"),
              key("after", Shape.TIME, "so much later").beside("when", "follows"),
              key("every", Shape.TIME, "again and again"),
              key("times", new Whole(1, 1_000_000), "how often in all"),
              key("write", WRITTEN, "operator points with values, in one request")
                  .example("{start: TRUE}"),
              key("refused", Shape.TRUTH, "the write is out of range and does nothing")
                  .beside("write"),
              key("press", Shape.NAME, "a push button").example("panel.start"),
              key("release", Shape.NAME, "a latching push button").example("panel.start"),
              key("turn", Shape.NAME, "a selector").example("panel.mode"),
              key("to", Shape.NAME, "its position").beside("turn").needed().example("hand"),
              key("fault", new Of(FAULT), "throws a fault"),
              key("clear", new Of(CLEARED), "clears all faults of one place"),
              key("ramp", new Of(RAMP), "leads a value from one number to another"),
              key("over", Shape.TIME, "how long the ramp takes").beside("ramp").needed(),
              key("pulse", new Of(PULSE), "gives a value for a time"),
              key("force", WRITTEN, "inputs and outputs with values").example("{beam: TRUE}"),
              key("unforce", Shape.NAME, "a point, or all").example("all"),
              key("skip", new Whole(1, 1_000_000), "misses so many scans"),
              key("restart", Shape.words(DeedLoader.Start.class), "the controller off and on"),
              key("for", Shape.TIME, "how long")
                  .beside("press", "fault", "ramp", "pulse", "restart"))
          .exactlyOne(DeedLoader.DEEDS)
          .exactlyOne(List.of("at", "when", "follows"))
          .exactlyOne(List.of("for"), List.of("pulse"));

  static final Form EXPECTATION =
      Form.of(
              "expectation",
              "an expectation",
              key("always", Shape.FORMULA, "holds in every scan"),
              key("never", Shape.FORMULA, "holds in no scan"),
              key("eventually", Shape.FORMULA, "holds in some scan"),
              key("when", Shape.FORMULA, "from every scan with this, `that` follows"),
              key("stable", Shape.FORMULA, "whenever it comes true it stays so"),
              key("count", Shape.FORMULA, "comes true so often"),
              key("at_end", Shape.FORMULA, "holds in the last scan"),
              key("golden", Shape.TEXT, "a stored run, a CSV file").example("run.csv"),
              key("within", Shape.TIME, "at the latest").beside("eventually", "when", "until"),
              key("that", Shape.FORMULA, "what follows").beside("when").needed(),
              key("after", Shape.TIME, "not sooner").beside("when"),
              key("for", Shape.TIME, "how long").beside("when", "stable"),
              key("until", Shape.FORMULA, "up to a scan with this").beside("always"),
              key("before", Shape.FORMULA, "until this has held").beside("never"),
              key("between", Shape.RANGE, "[least, greatest] number of times")
                  .beside("count")
                  .needed(),
              key("from", Shape.TIME, "the piece of the run that is judged begins here")
                  .beside("always", "never", "eventually", "when", "count", "golden"),
              key("to", Shape.TIME, "and ends here")
                  .beside("always", "never", "when", "count", "golden"),
              key("tolerance", WRITTEN, "how far values may differ, by name")
                  .beside("golden")
                  .example("{line.tub1.position: 0.01}"),
              key("shift", Shape.TIME, "how far they may be sooner or later").beside("golden"),
              key("unit", Shape.TEXT, "unit of the margin, in place of the quantity's own"))
          .exactlyOne(
              List.of(
                  "always", "never", "eventually", "when", "stable", "count", "at_end", "golden"))
          .exactlyOne(List.of("within", "for"), List.of("when"))
          .exactlyOne(List.of("for"), List.of("stable"));

  private static final Key PARAMETERS =
      key("parameters", new Named(Shape.ANYTHING, false), "what `$name` stands for")
          .example("{limit: 2.5}");
  private static final Key WITH =
      key(
          "with",
          new Filled(new Named(Shape.ANYTHING, true)),
          "settings laid over those of the project's plants, by plant");
  private static final Shape DONE = new Filled(new ListOf(new Of(STIMULUS)));
  private static final Shape EXPECTED = new Filled(new ListOf(new Of(EXPECTATION)));

  static final Form SETUP =
      Form.of(
          "setup",
          "a set-up",
          PARAMETERS,
          WITH,
          key("do", DONE, "what comes before the scenario's own"),
          key("expect", EXPECTED, "what is expected besides"));

  static final Form SCENARIO =
      Form.of(
          "scenario",
          "a scenario",
          required("scenario", new Filled(Shape.TEXT), "its name").example("Beam fails"),
          key("requirement", new Filled(Shape.NAMES), "what it proves something about")
              .example("R-12"),
          key("tags", new Filled(Shape.NAMES), "words to choose it by").example("[sensor]"),
          required("for", new Filled(Shape.TIME), "how long it runs").example("T#60s"),
          key("seed", new Whole(Long.MIN_VALUE, Long.MAX_VALUE), "of every random stream"),
          key("seeds", new Whole(1, 1_000_000), "a run for so many seeds from `seed` on"),
          key("setup", Shape.NAMES, "files that come before it").example("common/ready.yaml"),
          PARAMETERS,
          key("table", new ListOf(new Named(Shape.ANYTHING, false)), "a run for each row")
              .example("[{after: T#1s}]"),
          WITH,
          key("do", DONE, "what is done to the rig"),
          required("expect", EXPECTED, "what must hold"));

  private ScenarioForms() {}

  private static Key[] places() {
    return new Key[] {
      key("wire", Shape.NAME, "a wire, by its name").example("shed_beam"),
      key("supply", Shape.NAME, "or a supply").example("dc24"),
      key("node", Shape.NAME, "or a remote node").example("pit_rack"),
      key("plant", Shape.NAME, "or a plant").example("line")
    };
  }
}
