package bufferstop.model;

/**
 * Some IP addresses: those that share a prefix.
 *
 * @param text as written
 * @param prefix an address, 4 or 16 bytes
 * @param bits how many of its leading bits count
 */
public record Network(String text, byte[] prefix, int bits) {
  /** Every IPv4 address. */
  public static final Network ALL_V4 = new Network("0.0.0.0/0", new byte[4], 0);

  /** Every IPv6 address. */
  public static final Network ALL_V6 = new Network("::/0", new byte[16], 0);

  /** Whether an address, 4 or 16 bytes, is one of them. */
  public boolean contains(byte[] address) {
    if (address.length != prefix.length) {
      return false;
    }
    for (int bit = 0; bit < bits; bit++) {
      int mask = 0x80 >> bit % 8;
      if ((address[bit / 8] & mask) != (prefix[bit / 8] & mask)) {
        return false;
      }
    }
    return true;
  }
}
