package bufferstop.st;

import bufferstop.model.Type;
import java.math.BigDecimal;
import java.math.BigInteger;

/** A literal as the text says, before it is known what it is used with. */
sealed interface Literal {

  /** A value with a type of its own, in the encoding of {@link Type}. */
  record Typed(Type type, long bits) implements Literal {}

  /**
   * An integer that takes the type it is used with.
   *
   * @param based written with a base, and therefore without a sign
   */
  record Whole(BigInteger value, boolean based) implements Literal {

    /** Its type when nothing else gives one: the first that holds it. */
    Type ownType() {
      int bits = value.bitLength();
      return bits < 16 ? Type.INT : bits < 32 ? Type.DINT : bits < 64 ? Type.LINT : Type.ULINT;
    }

    /** Whether a value of the type, integer, real or bit string, is exactly this. */
    boolean fits(Type type) {
      if (type.isReal()) {
        double nearest = Numbers.rounded(type, value.doubleValue());
        return new BigDecimal(nearest).compareTo(new BigDecimal(value)) == 0;
      }
      if (type == Type.ULINT || type == Type.LWORD) {
        return value.signum() >= 0 && value.bitLength() <= Long.SIZE;
      }
      return (type.isInteger() || type.isBitString())
          && value.bitLength() < Long.SIZE
          && type.holds(value.longValue());
    }
  }

  /** A value of an enumeration, {@code mode#hand}. */
  record Member(String type, String value) implements Literal {}

  /** Characters, each one byte. */
  record Text(String value) implements Literal {}

  /**
   * A real that takes the type it is used with.
   *
   * @param digits in Java's notation, with its sign
   */
  record Real(String digits) implements Literal {

    /** The nearest value of the type; infinite when it is too large. */
    double in(Type type) {
      return type == Type.REAL ? Float.parseFloat(digits) : Double.parseDouble(digits);
    }
  }

  /** The same with the other sign; null when that cannot be written on the literal itself. */
  default Literal negated() {
    if (this instanceof Whole whole) {
      return whole.based() ? null : new Whole(whole.value().negate(), false);
    }
    return this instanceof Real real ? new Real("-" + real.digits()) : null;
  }
}
