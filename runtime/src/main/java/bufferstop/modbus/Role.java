package bufferstop.modbus;

import java.nio.charset.StandardCharsets;
import java.security.cert.X509Certificate;

/**
 * The role a client's certificate gives. Source: Modbus/TCP Security Protocol Specification,
 * MB-TCP-Security-v36, R-21 to and 8.4 [re-read].
 */
final class Role {
  private static final String EXTENSION = "1.3.6.1.4.1.50316.802.1";
  private static final int OCTET_STRING = 0x04;
  private static final int UTF8_STRING = 0x0C;
  private static final int LONG_LENGTH = 0x80;

  private Role() {}

  /** The whole string is the role; null when there is none that can be read. */
  static String of(X509Certificate certificate) {
    byte[] extension = certificate.getExtensionValue(EXTENSION);
    byte[] value = extension == null ? null : content(extension, OCTET_STRING);
    byte[] text = value == null ? null : content(value, UTF8_STRING);
    return text == null ? null : new String(text, StandardCharsets.UTF_8);
  }

  /** The content of one DER value of that tag and nothing behind it, or null. */
  private static byte[] content(byte[] der, int tag) {
    if (der.length < 2 || der[0] != tag) {
      return null;
    }
    int length = der[1] & 0xFF;
    int from = 2;
    if (length >= LONG_LENGTH) {
      int bytes = length - LONG_LENGTH;
      if (bytes < 1 || bytes > 2 || der.length < 2 + bytes) {
        return null;
      }
      length = bytes == 1 ? der[2] & 0xFF : PduCheck.word(der, 2);
      from = 2 + bytes;
    }
    if (der.length != from + length) {
      return null;
    }
    byte[] content = new byte[length];
    System.arraycopy(der, from, content, 0, length);
    return content;
  }
}
