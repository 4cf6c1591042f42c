package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Network;
import bufferstop.model.Serving;
import bufferstop.model.Serving.Permission;
import bufferstop.model.Serving.Secure;
import bufferstop.model.SourceText;
import bufferstop.model.Tree;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** Reads how a listener treats its clients: {@code clients}, {@code identification}, TLS. */
final class ServingLoader {
  private static final int MOST_CONNECTIONS = 4096;
  private static final int MOST_BYTES = 244; // of an object of function 43/14, none is split
  private static final List<String> OBJECTS =
      List.of("vendor", "product_code", "revision", "url", "product", "model", "application");

  private final Sections sections;
  private final Diagnostics problems;
  private final String project;

  ServingLoader(Sections sections, Diagnostics problems, String project) {
    this.sections = sections;
    this.problems = problems;
    this.project = project;
  }

  /**
   * Reads them from a face.
   *
   * @param named sections of its maps, in lower case
   */
  Serving read(TableReader face, List<String> named) {
    TableReader clients = sections.table(face, "clients", ModbusForms.CLIENTS);
    Map<Integer, String> identification = identification(face);
    TableReader secure = sections.table(face, "secure", ModbusForms.SECURE);
    Secure tls = secure == null ? null : secure(secure, named);
    Serving standard = Serving.STANDARD;
    if (clients == null) {
      return new Serving(
          standard.connections(),
          standard.perAddress(),
          0,
          standard.from(),
          standard.writers(),
          standard.priority(),
          identification,
          tls);
    }
    int most = (int) clients.whole("most", standard.connections(), 1, MOST_CONNECTIONS);
    Serving serving =
        new Serving(
            most,
            (int) clients.whole("per_address", most, 1, MOST_CONNECTIONS),
            clients.time("idle", 0, 0),
            networks(clients, "from", standard.from()),
            networks(clients, "writers", standard.writers()),
            networks(clients, "priority", standard.priority()),
            identification,
            tls);
    clients.finish();
    return serving;
  }

  private List<Network> networks(TableReader reader, String key, List<Network> otherwise) {
    if (reader.tree(key) == null) {
      return otherwise;
    }
    List<Network> networks = new ArrayList<>();
    for (Name name : reader.names(key)) {
      Network network = Networks.read(name, problems);
      if (network != null) {
        networks.add(network);
      }
    }
    return List.copyOf(networks);
  }

  /** Objects of function 43/14 that a face or a unit gives. */
  Map<Integer, String> identification(TableReader from) {
    Map<Integer, String> objects = new TreeMap<>();
    objects.put(OBJECTS.indexOf("application"), shortened(project));
    TableReader reader = sections.table(from, "identification", ModbusForms.IDENTIFICATION);
    if (reader == null) {
      return objects;
    }
    for (int id = 0; id < OBJECTS.size(); id++) {
      object(reader.text(OBJECTS.get(id)), id, objects);
    }
    for (Tree.Entry entry : sections.names(reader, "private", "private objects by number")) {
      SourceText text = TableReader.textOf(entry, problems);
      String number = entry.key().text();
      int id = number.matches("\\d{1,3}") ? Integer.parseInt(number) : -1;
      if (id < 0x80 || id > 0xFF) {
        problems.add(
            Diagnostic.error(
                    Code.OUT_OF_RANGE,
                    entry.key().position(),
                    "`" + number + "` is no private object")
                .expected("a number from 128 to 255"));
      } else {
        object(text, id, objects);
      }
    }
    reader.finish();
    return objects;
  }

  private static String shortened(String text) {
    String ascii = text.replaceAll("[^ -~]", "?");
    return ascii.substring(0, Math.min(MOST_BYTES, ascii.length()));
  }

  private void object(SourceText text, int id, Map<Integer, String> objects) {
    if (text == null) {
      return;
    }
    boolean ascii = text.value().chars().allMatch(c -> c >= ' ' && c <= '~');
    int length = text.value().getBytes(StandardCharsets.UTF_8).length;
    if (!ascii || length > MOST_BYTES) {
      problems.add(
          Diagnostic.error(
                  Code.OUT_OF_RANGE,
                  text.whole(),
                  ascii
                      ? "this text has " + length + " characters"
                      : "this text is not all ASCII, which clients expect")
              .expected("at most " + MOST_BYTES + " ASCII characters, which one answer holds"));
      return;
    }
    objects.put(id, text.value());
  }

  private Secure secure(TableReader reader, List<String> named) {
    SourceText listen = reader.requiredText("listen");
    HostAndPort address = listen == null ? null : HostAndPort.read(listen, problems);
    Path certificate = file(reader, "certificate", true);
    Path key = file(reader, "key", true);
    Path authorities = file(reader, "authorities", true);
    Path revoked = file(reader, "revoked", false);
    Map<String, Permission> roles = new TreeMap<>();
    for (Tree.Entry entry : sections.names(reader, "roles", "permissions by role")) {
      roles.put(entry.key().text(), permission(entry, named));
    }
    Tree.Entry without = reader.entry("without_role");
    Permission withoutRole = without == null ? null : permission(without, named);
    reader.finish();
    boolean whole = address != null && certificate != null && key != null && authorities != null;
    return whole
        ? new Secure(
            address.host(),
            address.port(),
            certificate,
            key,
            authorities,
            revoked,
            roles,
            withoutRole,
            reader.position())
        : null;
  }

  /** The path of a file that must be there; null when absent or after a diagnostic. */
  private Path file(TableReader reader, String key, boolean required) {
    if (required) {
      reader.required(key);
    }
    Name name = reader.name(key);
    if (name == null) {
      return null;
    }
    Path path = ProjectFiles.beside(name);
    if (path == null || !Files.isRegularFile(path)) {
      problems.add(
          Diagnostic.error(
                  Code.NO_SUCH_FILE, name.position(), "there is no file `" + name.text() + "`")
              .expected("a PEM file, its path taken from the folder of this file")
              .help("scripts/bench-certs makes certificates for the bench"));
      return null;
    }
    return path;
  }

  private Permission permission(Tree.Entry entry, List<String> named) {
    TableReader reader = TableReader.open(entry, ModbusForms.PERMISSION, problems);
    if (reader == null) {
      return Permission.NONE;
    }
    Permission permission =
        new Permission(sections(reader, "read", named), sections(reader, "write", named));
    reader.finish();
    return permission;
  }

  /** Sections of maps: {@code all}, or names; none when the key is absent. */
  private Serving.Sections sections(TableReader reader, String key, List<String> named) {
    SourceText alone = MapEntryLoader.textOf(reader, key);
    if (alone != null && alone.value().equalsIgnoreCase("all")) {
      return Serving.Sections.ALL;
    }
    List<String> names = new ArrayList<>();
    for (Name name : reader.names(key)) {
      String lower = name.text().toLowerCase(Locale.ROOT);
      if (named.contains(lower)) {
        names.add(lower);
      } else {
        problems.add(
            Diagnostic.error(
                    Code.UNKNOWN_NAME,
                    name.position(),
                    "no section `" + name.text() + "` in these maps")
                .expected(
                    named.isEmpty()
                        ? "`all`; sections begin with {section: name} in a map"
                        : "`all`, or of " + String.join(", ", named))
                .help(NearNames.question(name.text(), named)));
      }
    }
    return new Serving.Sections(false, List.copyOf(names));
  }
}
