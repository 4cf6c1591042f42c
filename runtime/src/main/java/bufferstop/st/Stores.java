package bufferstop.st;

import bufferstop.model.ArrayBounds;
import bufferstop.model.ArrayOf;
import bufferstop.model.StringCells;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import bufferstop.model.ValueType;
import java.util.List;
import org.objectweb.asm.Label;

/** Assignments to more or less than the one cell of a name. */
final class Stores {
  private static final int NOWHERE = -1;

  private Stores() {}

  /** {@code text := value}, cut to what the target holds; keeps it when there is no value. */
  static final class OfString extends Statement {
    private final Symbol target;
    private final Expression value;

    /**
     * An assignment.
     *
     * @param value that lies in cells
     */
    OfString(Symbol target, Expression value) {
      this.target = target;
      this.value = value;
    }

    @Override
    int run(long[] cells, int at) {
      long watched = Faults.watch(cells);
      long text = value.bits(cells, at);
      if (!Faults.failedSince(cells, watched)) {
        Strings.copy(text, Read.cell(target, at), target.length(), cells);
      }
      return ON;
    }

    @Override
    List<Expression> parts() {
      return List.of(value);
    }

    @Override
    int ownBytes() {
      return 56;
    }

    @Override
    void emit(Code code) {
      Label failed = new Label();
      int text = code.putWatched(value, failed);
      code.loadLocal(text);
      code.cell(target);
      code.push(target.length());
      code.cells();
      code.call(Strings.class, "copy", "(JII[J)V");
      code.label(failed);
    }
  }

  /** {@code array[index] := value}; with an error in either nothing is assigned. */
  static final class OfElement extends Statement {
    private final ArrayOf array;
    private final Expression index;
    private final Expression value;
    private final int place;

    /**
     * An assignment.
     *
     * @param place number of its place, for the error of an index outside
     */
    OfElement(ArrayOf array, Expression index, Expression value, int place) {
      this.array = array;
      this.index = index;
      this.value = value;
      this.place = place;
    }

    @Override
    int run(long[] cells, int at) {
      long watched = Faults.watch(cells);
      long number = index.bits(cells, at);
      long bits = value.bits(cells, at);
      if (!Faults.failedSince(cells, watched)) {
        ArrayBounds bounds = array.bounds();
        int first = Read.cell(array.first(), at);
        if (isString()) {
          storeText(
              number,
              bits,
              bounds.least(),
              bounds.greatest(),
              first,
              array.first().length(),
              cells,
              place);
        } else {
          store(number, bits, bounds.least(), bounds.greatest(), first, cells, place);
        }
      }
      return ON;
    }

    private boolean isString() {
      return array.first().type() == Type.STRING;
    }

    @Override
    List<Expression> parts() {
      return List.of(index, value);
    }

    @Override
    int ownBytes() {
      return 72;
    }

    @Override
    void emit(Code code) {
      Label failed = new Label();
      int watched = code.watch();
      int number = code.local(2);
      code.put(index);
      code.storeLocal(number);
      int bits = code.local(2);
      code.put(value);
      code.storeLocal(bits);
      code.jumpIfFailed(watched, failed);
      code.loadLocal(number);
      code.loadLocal(bits);
      Element.emitPlace(array, code);
      if (isString()) {
        code.push(array.first().length());
        code.place(place);
        code.call(Stores.class, "storeText", "(JJIIII[JI)V");
      } else {
        code.place(place);
        code.call(Stores.class, "store", "(JJIII[JI)V");
      }
      code.label(failed);
    }
  }

  static void store(
      long index, long bits, int least, int greatest, int first, long[] cells, int place) {
    int cell = Element.cell(index, least, greatest, first, 1, cells, place);
    if (cell != NOWHERE) {
      cells[cell] = bits;
    }
  }

  static void storeText(
      long index,
      long text,
      int least,
      int greatest,
      int first,
      int length,
      long[] cells,
      int place) {
    int stride = StringCells.cells(length);
    int cell = Element.cell(index, least, greatest, first, stride, cells, place);
    if (cell != NOWHERE) {
      Strings.copy(text, cell, length, cells);
    }
  }

  /** Copies the cells of a value of equal type and size over another. */
  static final class OfCells extends Statement {
    private final Symbol target;
    private final int count;
    private final Expression value;

    /**
     * A copy.
     *
     * @param target its first cell
     * @param count how many
     * @param value that lies in as many cells
     */
    OfCells(Symbol target, int count, Expression value) {
      this.target = target;
      this.count = count;
      this.value = value;
    }

    @Override
    int run(long[] cells, int at) {
      copy(value.bits(cells, at), Read.cell(target, at), count, cells);
      return ON;
    }

    @Override
    List<Expression> parts() {
      return List.of(value);
    }

    @Override
    int ownBytes() {
      return 16;
    }

    @Override
    void emit(Code code) {
      code.put(value);
      code.cell(target);
      code.push(count);
      code.cells();
      code.call(Stores.class, "copy", "(JII[J)V");
    }
  }

  /** Stores a value of any type, a STRING or an array lying in cells. */
  static Statement into(Symbol target, ValueType type, Expression value) {
    if (type.isArray()) {
      return new OfCells(target, type.cells(), value);
    }
    return type.type() == Type.STRING
        ? new OfString(target, value)
        : new Statement.Assignment(target, value);
  }

  static void copy(long from, int to, int count, long[] cells) {
    System.arraycopy(cells, (int) from, cells, to, count);
  }
}
