package bufferstop.model;

import java.util.Locale;

/**
 * The elementary types (IEC 61131-3:2003, 2.3.1, Table 10 [re-read]). A value of any of them is
 * carried in one {@code long}: BOOL as 0 or 1, integers as themselves (ULINT as its 64 bits), TIME
 * as microseconds, REAL and LREAL as the bits of a double (a REAL's value is always one of the
 * single format), bit strings as themselves, with zeros before them.
 */
public enum Type {
  BOOL(1, 0, 1),
  SINT(8, Byte.MIN_VALUE, Byte.MAX_VALUE),
  INT(16, Short.MIN_VALUE, Short.MAX_VALUE),
  DINT(32, Integer.MIN_VALUE, Integer.MAX_VALUE),
  LINT(64, Long.MIN_VALUE, Long.MAX_VALUE),
  USINT(8, 0, 0xFF),
  UINT(16, 0, 0xFFFF),
  UDINT(32, 0, 0xFFFF_FFFFL),
  ULINT(64, 0, -1L),
  REAL(32, 0, 0),
  LREAL(64, 0, 0),
  TIME(64, Long.MIN_VALUE, Long.MAX_VALUE),
  BYTE(8, 0, 0xFF),
  WORD(16, 0, 0xFFFF),
  DWORD(32, 0, 0xFFFF_FFFFL),
  LWORD(64, 0, -1L),

  /** Any enumeration, carried as the number of its value; which one, its symbol says. */
  ENUM(16, 0, 0xFFFF),

  /** Bytes in several cells, see {@link StringCells}; how many, its symbol says. */
  STRING(0, 0, 0);

  private final int bits;
  private final long least;
  private final long greatest;

  Type(int bits, long least, long greatest) {
    this.bits = bits;
    this.least = least;
    this.greatest = greatest;
  }

  /** Size in bits as the standard gives it; for TIME the size it is carried in. */
  public int bits() {
    return bits;
  }

  /** Least value of an integer type. */
  public long least() {
    return least;
  }

  /** Greatest value of an integer type; for ULINT read it as unsigned. */
  public long greatest() {
    return greatest;
  }

  public boolean isInteger() {
    return ordinal() >= SINT.ordinal() && ordinal() <= ULINT.ordinal();
  }

  public boolean isSigned() {
    return ordinal() >= SINT.ordinal() && ordinal() <= LINT.ordinal();
  }

  public boolean isReal() {
    return this == REAL || this == LREAL;
  }

  /** BYTE to LWORD: bits without a numeric value. BOOL, a bit string of one, is not among them. */
  public boolean isBitString() {
    return ordinal() >= BYTE.ordinal() && ordinal() <= LWORD.ordinal();
  }

  /** The unsigned integer with the bits of this bit string. */
  public Type number() {
    return switch (this) {
      case BYTE -> USINT;
      case WORD -> UINT;
      case DWORD -> UDINT;
      default -> ULINT;
    };
  }

  /** Whether its name alone says all of it. */
  public boolean isPlain() {
    return this != ENUM && this != STRING;
  }

  /** Integers and reals. */
  public boolean isNumber() {
    return isInteger() || isReal();
  }

  /** Whether an integer or bit string may hold {@code value}; ULINT and LWORD take any bits. */
  public boolean holds(long value) {
    return this == ULINT || this == LWORD || value >= least && value <= greatest;
  }

  /** Compares two values of this type, each in its encoding. */
  public int compare(long a, long b) {
    return switch (this) {
      case REAL, LREAL -> Double.compare(Double.longBitsToDouble(a), Double.longBitsToDouble(b));
      case ULINT, LWORD -> Long.compareUnsigned(a, b);
      default -> Long.compare(a, b);
    };
  }

  /**
   * Whether a value may go to {@code target} without a conversion being written: the whole range
   * and precision fit. Source: IEC 61131-3:2013, 6.6.1.6 [from memory, not re-read].
   */
  public boolean widensTo(Type target) {
    if (this == target) {
      return true;
    }
    if (this == REAL) {
      return target == LREAL;
    }
    if (!isInteger() || this == LINT || this == ULINT) {
      return false;
    }
    if (target.isReal()) {
      return bits <= (target == REAL ? 16 : 32);
    }
    if (!target.isInteger() || target.bits <= bits) {
      return false;
    }
    return isSigned() == target.isSigned() || target.isSigned();
  }

  /** The type of that name in any case; null for those that need more than a name. */
  public static Type named(String name) {
    String upper = name.toUpperCase(Locale.ROOT);
    for (Type type : values()) {
      if (type.isPlain() && type.name().equals(upper)) {
        return type;
      }
    }
    return null;
  }
}
