package bufferstop.model;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;

/**
 * How a Modbus listener treats its clients.
 *
 * @param connections clients at a time
 * @param perAddress clients at a time from one address
 * @param idleMicros a client without a request for so long is closed; 0 for never
 * @param from who may connect
 * @param writers who of them may write
 * @param priority whose connections are never closed for others or for being idle
 * @param identification objects of function 43/14 by their identifiers, 0 to 255
 * @param secure the TLS listener, or null
 */
public record Serving(
    int connections,
    int perAddress,
    long idleMicros,
    List<Network> from,
    List<Network> writers,
    List<Network> priority,
    Map<Integer, String> identification,
    Secure secure) {

  private static final int STANDARD_CONNECTIONS = 256;

  /** Everyone, up to 256 clients, without TLS. */
  public static final Serving STANDARD =
      new Serving(
          STANDARD_CONNECTIONS,
          STANDARD_CONNECTIONS,
          0,
          List.of(Network.ALL_V4, Network.ALL_V6),
          List.of(Network.ALL_V4, Network.ALL_V6),
          List.of(),
          Map.of(),
          null);

  /** The same for a unit that tells something else about itself. */
  public Serving identifiedAs(Map<Integer, String> other) {
    return new Serving(connections, perAddress, idleMicros, from, writers, priority, other, secure);
  }

  /**
   * The secure listener. Source of its rules: Modbus/TCP Security Protocol Specification,
   * MB-TCP-Security-v36 [re-read].
   *
   * @param certificate PEM file: the server's own first, then the chain up to the root
   * @param key PEM file with its private key, PKCS #8, not encrypted
   * @param authorities PEM file with the roots that clients' certificates must lead to
   * @param revoked PEM or DER file with a revocation list, or null
   * @param roles by name; empty when every client with a good certificate may do everything
   * @param withoutRole permissions of a certificate without a role; null refuses everything
   */
  public record Secure(
      String host,
      int port,
      Path certificate,
      Path key,
      Path authorities,
      Path revoked,
      Map<String, Permission> roles,
      Permission withoutRole,
      Position position) {}

  /** What a client may do, by sections of maps. */
  public record Permission(Sections read, Sections write) {
    /** Everything. */
    public static final Permission ALL = new Permission(Sections.ALL, Sections.ALL);

    /** Nothing. */
    public static final Permission NONE = new Permission(Sections.NONE, Sections.NONE);

    /** The same without writing. */
    public Permission readOnly() {
      return new Permission(read, Sections.NONE);
    }
  }

  /**
   * Some sections of maps.
   *
   * @param all whether every entry is meant, also those in no section
   * @param names else those of the sections, in lower case
   */
  public record Sections(boolean all, List<String> names) {
    /** Every entry. */
    public static final Sections ALL = new Sections(true, List.of());

    /** No entry. */
    public static final Sections NONE = new Sections(false, List.of());

    /** Whether an entry's section is among them. */
    public boolean has(String section) {
      return all || names.contains(section);
    }

    public boolean isEmpty() {
      return !all && names.isEmpty();
    }
  }
}
