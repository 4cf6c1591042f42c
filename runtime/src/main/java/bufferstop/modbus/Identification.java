package bufferstop.modbus;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.TreeMap;

/**
 * What a unit tells about itself, function 43/14. Immutable.
 *
 * <p>Source: Modbus Application Protocol V1.1b3, 6.21 [re-read].
 */
public final class Identification {
  /** Longest value of an object, since none is split: 253 bytes of a PDU without 9 before it. */
  public static final int MOST_BYTES = 244;

  /** What a unit tells whose project says nothing. */
  public static final Identification STANDARD = new Identification(Map.of());

  private static final int MANDATORY = 3; // vendor, product code, revision
  private static final int READ_DEVICE_IDENTIFICATION = 0x0E;
  private static final int BASIC = 1;
  private static final int REGULAR = 2;
  private static final int EXTENDED = 3;
  private static final int ONE_OBJECT = 4;
  private static final int SINGLE_OBJECTS_TOO = 0x80; // of the conformity level

  // of a request, behind the function code
  private static final int MEI_TYPE_AT = 1;
  private static final int CODE_AT = 2;
  private static final int OBJECT_AT = 3;
  private static final int REQUEST_LENGTH = 4;
  // of an answer
  private static final int HEAD = 7;

  private final TreeMap<Integer, byte[]> objects = new TreeMap<>();
  private final int conformity;

  /**
   * An identification; of vendor, product code and revision (objects 0, 1 and 2), which must be
   * there, those not given are the product's own.
   *
   * @param texts by object identifier: 0 to 6 and 128 to 255
   * @throws IllegalArgumentException if one is too long
   */
  public Identification(Map<Integer, String> texts) {
    String version = Identification.class.getPackage().getImplementationVersion();
    put(0, "Bufferstop");
    put(1, "soft PLC");
    put(2, version == null ? "development" : version);
    texts.forEach(this::put);
    if (objects.values().stream().anyMatch(value -> value.length > MOST_BYTES)) {
      throw new IllegalArgumentException("an object is longer than " + MOST_BYTES + " bytes");
    }
    int last = objects.lastKey();
    int level = last >= 0x80 ? EXTENDED : last >= MANDATORY ? REGULAR : BASIC;
    conformity = level | SINGLE_OBJECTS_TOO;
  }

  private void put(int id, String text) {
    objects.put(id, text.getBytes(StandardCharsets.UTF_8));
  }

  /** The exception code that a request of function 43 deserves for its structure. */
  static int fault(byte[] bytes, int from, int length) {
    if (length <= MEI_TYPE_AT) {
      return Refusal.ILLEGAL_VALUE;
    }
    if (bytes[from + MEI_TYPE_AT] != READ_DEVICE_IDENTIFICATION) {
      return Refusal.ILLEGAL_FUNCTION;
    }
    boolean good =
        length == REQUEST_LENGTH
            && bytes[from + CODE_AT] >= BASIC
            && bytes[from + CODE_AT] <= ONE_OBJECT;
    return good ? PduCheck.GOOD : Refusal.ILLEGAL_VALUE;
  }

  /**
   * Puts the answer to a checked request, function code and all.
   *
   * @return length of its PDU
   * @throws Refusal when one object is asked for that is not there
   */
  int answer(byte[] request, byte[] answer) throws Refusal {
    int from = Exchange.FUNCTION_AT;
    int code = request[from + CODE_AT];
    int object = request[from + OBJECT_AT] & 0xFF;
    boolean known = objects.containsKey(object);
    Refusal.unless(known || code != ONE_OBJECT, Refusal.ILLEGAL_ADDRESS);
    answer[from] = FunctionCode.ENCAPSULATED_INTERFACE;
    answer[from + 1] = READ_DEVICE_IDENTIFICATION;
    answer[from + 2] = (byte) code;
    answer[from + 3] = (byte) conformity;
    int last = code == ONE_OBJECT ? object : lastOf(code);
    int first = known && object <= last ? object : 0; // an unknown one means from the beginning
    return fill(first, last, answer, from);
  }

  private static int lastOf(int code) {
    return code == BASIC ? MANDATORY - 1 : code == REGULAR ? 0x7F : 0xFF;
  }

  private int fill(int first, int last, byte[] answer, int from) {
    int at = from + HEAD;
    int count = 0;
    int next = 0;
    for (Map.Entry<Integer, byte[]> object : objects.subMap(first, true, last, true).entrySet()) {
      byte[] value = object.getValue();
      if (at + 2 + value.length > from + Exchange.MOST_PDU) {
        next = object.getKey();
        break;
      }
      answer[at] = object.getKey().byteValue();
      answer[at + 1] = (byte) value.length;
      System.arraycopy(value, 0, answer, at + 2, value.length);
      at += 2 + value.length;
      count++;
    }
    answer[from + 4] = (byte) (next == 0 ? 0 : 0xFF);
    answer[from + 5] = (byte) next;
    answer[from + 6] = (byte) count;
    return at - from;
  }
}
