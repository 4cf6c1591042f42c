package bufferstop.load;

import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.SourceText;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Where to listen or to connect. */
record HostAndPort(String host, int port) {
  /** Nowhere. */
  static final HostAndPort NONE = new HostAndPort("", -1);

  private static final Pattern FORM = Pattern.compile("(\\S+):(\\d{1,5})");
  private static final int MOST = 65_535;

  /** Null after a diagnostic. */
  static HostAndPort read(SourceText text, Diagnostics problems) {
    Matcher matcher = FORM.matcher(text.value());
    int port = matcher.matches() ? Integer.parseInt(matcher.group(2)) : -1;
    if (port < 0 || port > MOST) {
      problems.add(
          Diagnostic.error(Code.BAD_ADDRESS, text.whole(), "`" + text.value() + "` is no address")
              .expected("host:port, port from 0 to 65535, for instance 127.0.0.1:1502"));
      return null;
    }
    return new HostAndPort(matcher.group(1), port);
  }
}
