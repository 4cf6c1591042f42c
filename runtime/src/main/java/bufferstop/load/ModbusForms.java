package bufferstop.load;

import static bufferstop.model.Form.Key.key;
import static bufferstop.model.Form.Key.required;

import bufferstop.model.Field;
import bufferstop.model.Form;
import bufferstop.model.Form.Key;
import bufferstop.model.ModbusMap.ByteOrder;
import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Polling;
import bufferstop.model.Shape;
import bufferstop.model.Shape.ListOf;
import bufferstop.model.Shape.Named;
import bufferstop.model.Shape.Of;
import bufferstop.model.Shape.Section;
import bufferstop.model.Shape.Whole;
import bufferstop.model.Shape.Words;
import bufferstop.model.SunSpecMeter.Quantity;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/** The keys of Modbus maps and of how they are served. */
final class ModbusForms {
  private static final List<String> TABLES =
      List.of("coil", "discrete_input", "holding_register", "input_register");
  private static final Key PANEL =
      key("fault_panel", new Whole(0, 255), "unit that serves faults and forces");
  private static final Shape ADDRESS =
      Shape.either(new Whole(0, 65_535), new Words(List.of("auto")));
  private static final Key WORD_ORDER =
      key("word_order", Shape.words(WordOrder.class), "of values of several registers");
  private static final Key BYTE_ORDER =
      key("byte_order", Shape.words(ByteOrder.class), "inside a register");

  static final Form ENTRY =
      Form.of(
              "map_entry",
              "a map entry",
              key("point", Shape.NAME, "what a scenario may observe").example("pit_beam"),
              key("all", Shape.words(MapEntryLoader.All.class), "every point of that kind"),
              key("gap", new Whole(1, 65_536), "so many addresses that read 0"),
              key("section", Shape.NAME, "heads the entries that follow, for roles")
                  .example("settings"),
              table("coil"),
              table("discrete_input"),
              table("holding_register"),
              table("input_register"),
              key("bit", new Whole(0, 15), "a BOOL in one bit of a register").beside("point"),
              key("as", new Words(ScaleLoader.NAMES), "the number that stands in the registers")
                  .beside("point"),
              key("scale", Shape.LITERAL, "what one step of that number is worth")
                  .beside("as")
                  .example("0.1"),
              key("range", Shape.RANGE, "[least, greatest] value shown and taken").beside("as"),
              key("sentinel", Shape.LITERAL, "the number that shows for a value out of range")
                  .beside("as")
                  .example("-1"),
              WORD_ORDER.beside("point", "all"),
              BYTE_ORDER.beside("point", "all"))
          .exactlyOne(List.of("point", "all", "gap", "section"))
          .exactlyOne(TABLES, List.of("point", "gap"));

  static final Form CLIENTS =
      Form.of(
          "clients",
          "what clients may do",
          key("most", new Whole(1, 4096), "connections at once"),
          key("per_address", new Whole(1, 4096), "connections from one address"),
          key("idle", Shape.TIME, "a connection is closed after so long without a request"),
          key("from", Shape.NAMES, "networks that may connect").example("127.0.0.0/8"),
          key("writers", Shape.NAMES, "networks that may write").example("127.0.0.1"),
          key("priority", Shape.NAMES, "networks that find room when it is full")
              .example("127.0.0.1"));

  static final Form IDENTIFICATION =
      Form.of(
          "identification",
          "an identification",
          key("vendor", Shape.TEXT, "object 0 of function 43/14"),
          key("product_code", Shape.TEXT, "object 1"),
          key("revision", Shape.TEXT, "object 2"),
          key("url", Shape.TEXT, "object 3"),
          key("product", Shape.TEXT, "object 4"),
          key("model", Shape.TEXT, "object 5"),
          key("application", Shape.TEXT, "object 6, by default the project's name"),
          key("private", new Section(new Named(Shape.TEXT, false)), "objects 128 to 255")
              .example("{128: bench 4}"));

  private static final Shape READABLE = Shape.NAMES;

  static final Form PERMISSION =
      Form.of(
          "permission",
          "a permission",
          key("read", READABLE, "sections of the maps, or all").example("all"),
          key("write", READABLE, "sections of the maps, or all").example("all"));

  static final Form SECURE =
      Form.of(
          "secure",
          "the secure listener",
          required("listen", Shape.TEXT, "host:port").example("127.0.0.1:802"),
          required("certificate", Shape.TEXT, "PEM file of the server").example("server.pem"),
          required("key", Shape.TEXT, "PEM file of its key").example("server.key"),
          required("authorities", Shape.TEXT, "PEM file of who signs clients").example("ca.pem"),
          key("revoked", Shape.TEXT, "PEM file of certificates revoked").example("crl.pem"),
          key(
              "roles",
              new Section(new Named(new Of(PERMISSION), false)),
              "what a client may do, by the role in its certificate"),
          key("without_role", new Of(PERMISSION), "what one without a role may do"));

  private static final Shape MAP = new Section(new ListOf(new Of(ENTRY)));

  static final Form SUNSPEC_SCALE =
      Form.of("sunspec_scale", "exponents of scale points", scalePoints());

  static final Form SUNSPEC =
      Form.of(
          "sunspec",
          "a SunSpec meter",
          required("meter", Shape.NAME, "the meter it shows").example("mains.meter"),
          required("phases", new Whole(1, 3), "1 or 3"),
          required("manufacturer", Shape.TEXT, "up to 32 characters"),
          required("model", Shape.TEXT, "up to 32 characters"),
          required("serial", Shape.TEXT, "up to 32 characters"),
          key("options", Shape.TEXT, "up to 16 characters"),
          key("version", Shape.TEXT, "up to 16 characters"),
          key("base", new Whole(0, 50_000), "0, 40000 or 50000").example("40000"),
          key("scale", new Section(new Of(SUNSPEC_SCALE)), "exponents of scale points"));

  private static final List<Key> ASKED =
      List.of(
          key("cycle", Shape.TIME, "from one round of questions to the next").example("T#20ms"),
          key("answer", Shape.TIME, "how long an answer may take").example("T#500ms"),
          key("timeout", Shape.TIME, "lost after so long without a round; longer than the cycle")
              .example("T#1s"),
          key("refresh", Shape.TIME, "outputs are written again after so long").example("T#500ms"),
          key("on_loss", Shape.words(Field.OnLoss.class), "what inputs read while it is lost"),
          key("watchdog", Shape.TIME, "after which the device makes its own outputs safe")
              .example("T#2s"),
          key(
              "when_quiet",
              Shape.words(Polling.WhenQuiet.class),
              "what a plant does when its controller is not heard"),
          key("heartbeat", Shape.NAME, "an output the controller changes again and again")
              .example("alive"));

  static final Form UNIT =
      Form.of(
              "unit",
              "a unit",
              required("unit", new Whole(0, 255), "its identifier"),
              WORD_ORDER.beside("map"),
              BYTE_ORDER.beside("map"),
              key("identification", new Section(new Of(IDENTIFICATION)), "what it says of itself"),
              key("map", MAP, "its entries"),
              key("sunspec", new Section(new Of(SUNSPEC)), "or the meter it shows, by SunSpec"))
          .exactlyOne(List.of("map", "sunspec"));

  private static final List<Key> SERVED =
      List.of(
          key("unit", new Whole(0, 255), "identifier of the map itself"),
          WORD_ORDER,
          BYTE_ORDER,
          key("identification", new Section(new Of(IDENTIFICATION)), "what it says of itself"),
          key("clients", new Section(new Of(CLIENTS)), "who may connect, and how many"),
          key("secure", new Section(new Of(SECURE)), "Modbus inside TLS"),
          key("units", new Section(Shape.named(new Of(UNIT))), "further units, by name"),
          required("map", MAP, "its entries"));

  private static final List<Key> REACHED =
      Stream.concat(
              Stream.of(
                  key("address", Shape.TEXT, "host:port of the device").example("127.0.0.1:2502")),
              ASKED.stream())
          .toList();

  /** A unit of field or plc. */
  static final Form DEVICE =
      new Form(
              "device",
              "a unit",
              UNIT.keys().stream().filter(k -> !k.name().equals("sunspec")).toList(),
              List.of(),
              null)
          .and(REACHED.toArray(Key[]::new))
          .exactlyOne(List.of("map"));

  static final Form HMI =
      Form.of(
              "hmi",
              "a Modbus map",
              key("listen", Shape.TEXT, "host:port it listens on").example("127.0.0.1:1502"),
              PANEL)
          .and(SERVED.toArray(Key[]::new))
          .atLeastOne("listen", "secure");

  static final Form FIELD = devices("field_map").and(PANEL);
  static final Form PLC = devices("plc_map");

  static final Form MODBUS =
      Form.of(
          "modbus",
          "Modbus maps",
          key("hmi", new Section(new Of(HMI)), "served to HMIs by `run`"),
          key("field", new Section(new Of(FIELD)), "remote inputs and outputs"),
          key("plc", new Section(new Of(PLC)), "another controller"));

  private ModbusForms() {}

  /** The form of the map of that name. */
  static Form face(String name) {
    return switch (name) {
      case "hmi" -> HMI;
      case "field" -> FIELD;
      default -> PLC;
    };
  }

  private static Form devices(String name) {
    List<Key> keys =
        SERVED.stream()
            .map(
                k ->
                    k.name().equals("units")
                        ? key("units", new Section(Shape.named(new Of(DEVICE))), k.text())
                        : k)
            .toList();
    return Form.of(name, "a Modbus map")
        .and(keys.toArray(Key[]::new))
        .and(REACHED.toArray(Key[]::new))
        .atLeastOne("address", "secure");
  }

  private static Key table(String name) {
    return key(name, ADDRESS, "the address, from 0, or auto").beside("point", "gap");
  }

  private static Key[] scalePoints() {
    return Stream.of(Quantity.values())
        .map(q -> q.name().toLowerCase(Locale.ROOT))
        .map(q -> key(q, new Whole(-10, 10), "power of ten of " + q.replace('_', ' ')))
        .toArray(Key[]::new);
  }
}
