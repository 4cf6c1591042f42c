package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.Network;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads IP addresses and prefixes; names are not looked up. */
final class Networks {
  private static final Pattern V4 = Pattern.compile("(\\d{1,3}(?:\\.\\d{1,3}){3})(?:/(\\d{1,2}))?");
  private static final Pattern V6 =
      Pattern.compile("([0-9A-Fa-f:.]*:[0-9A-Fa-f:.]*)(?:/(\\d{1,3}))?");

  private Networks() {}

  /** Null after a diagnostic. */
  static Network read(Name name, Diagnostics problems) {
    for (Pattern form : new Pattern[] {V4, V6}) {
      Matcher matcher = form.matcher(name.text());
      if (matcher.matches()) {
        Network network = network(name.text(), matcher.group(1), matcher.group(2));
        if (network != null) {
          return network;
        }
      }
    }
    problems.add(
        Diagnostic.error(
                Code.BAD_ADDRESS, name.position(), "`" + name.text() + "` is no IP address")
            .expected("an address such as 192.168.1.20, or a network such as 192.168.1.0/24"));
    return null;
  }

  private static Network network(String text, String address, String bits) {
    try {
      byte[] bytes = InetAddress.getByName(address).getAddress(); // a literal: nothing is asked
      int all = 8 * bytes.length;
      int given = bits == null ? all : Integer.parseInt(bits);
      return given > all ? null : new Network(text, bytes, given);
    } catch (UnknownHostException e) {
      return null; // four numbers, but one above 255
    }
  }
}
