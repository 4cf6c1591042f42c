package bufferstop.cli;

import bufferstop.model.ModbusMap;
import bufferstop.model.Serving.Secure;
import java.io.PrintWriter;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.List;
import java.util.stream.Collectors;

/** What {@code run} says of the ports it serves. */
final class ListenerText {
  private static final String OPERATE = "whoever reaches this address can operate the controller";
  private static final String ROLE = "whoever has a good certificate acts with its role";

  private ListenerText() {}

  /**
   * Prints a line for each listener of the hmi map, and a warning where others than this machine
   * can reach it.
   *
   * @param port bound without TLS, or 0
   * @param securePort bound with TLS, or 0
   */
  static void print(List<ModbusMap> maps, int port, int securePort, PrintWriter out) {
    List<ModbusMap> units = maps.stream().filter(m -> m.face().equals("hmi")).toList();
    ModbusMap first = units.get(0);
    if (port > 0) {
      out.println("hmi: Modbus TCP on " + first.host() + ":" + port + ", " + words(units));
      warn(first.host(), OPERATE, out);
    }
    Secure secure = first.serving().secure();
    if (secure != null) {
      out.println(
          "hmi: Modbus/TCP Security on "
              + secure.host()
              + ":"
              + securePort
              + ", "
              + words(units)
              + ", "
              + roles(secure));
      warn(secure.host(), ROLE, out);
    }
  }

  private static String words(List<ModbusMap> units) {
    String ids =
        units.stream().map(u -> Integer.toString(u.unit())).collect(Collectors.joining(", "));
    return (units.size() == 1 ? "unit " : "units ") + ids;
  }

  private static String roles(Secure secure) {
    return secure.roles().isEmpty()
        ? "every good certificate may do everything"
        : "roles " + String.join(", ", secure.roles().keySet());
  }

  private static void warn(String host, String danger, PrintWriter out) {
    if (!isLoopback(host)) {
      out.println("warning: " + host + " is not this machine alone; " + danger);
    }
  }

  private static boolean isLoopback(String host) {
    try {
      return InetAddress.getByName(host).isLoopbackAddress();
    } catch (UnknownHostException e) {
      return false; // it was bound a moment ago; better one warning too many
    }
  }
}
