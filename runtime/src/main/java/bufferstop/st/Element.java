package bufferstop.st;

import bufferstop.model.ArrayBounds;
import bufferstop.model.ArrayOf;
import bufferstop.model.Enumeration;
import bufferstop.model.SourceText;
import bufferstop.model.Symbol;
import bufferstop.model.Type;
import java.util.List;

/** An element of an array whose index is worked out in the run; outside its bounds an error. */
final class Element extends Expression {
  private static final int NOWHERE = -1;

  private final ArrayOf array;
  private final Expression index;

  Element(ArrayOf array, Expression index, SourceText source) {
    super(array.first().type(), source);
    this.array = array;
    this.index = index;
  }

  @Override
  public Enumeration enumeration() {
    return array.first().enumeration();
  }

  @Override
  int capacity() {
    return array.first().length();
  }

  @Override
  long bits(long[] cells, int at) {
    ArrayBounds bounds = array.bounds();
    int first = Read.cell(array.first(), at);
    long number = index.bits(cells, at);
    return type() == Type.STRING
        ? text(number, bounds.least(), bounds.greatest(), first, array.stride(), cells, place())
        : value(number, bounds.least(), bounds.greatest(), first, cells, place());
  }

  static long value(long index, int least, int greatest, int first, long[] cells, int place) {
    int cell = cell(index, least, greatest, first, 1, cells, place);
    return cell == NOWHERE ? 0 : cells[cell];
  }

  static long text(
      long index, int least, int greatest, int first, int stride, long[] cells, int place) {
    int cell = cell(index, least, greatest, first, stride, cells, place);
    return cell == NOWHERE ? Strings.EMPTY : cell;
  }

  /** Where an element stands; counts an error and gives -1 when there is none. */
  static int cell(
      long index, int least, int greatest, int first, int stride, long[] cells, int place) {
    if (index < least || index > greatest) {
      Faults.raise(cells, place);
      return NOWHERE;
    }
    return first + (int) (index - least) * stride;
  }

  @Override
  boolean failsItself() {
    return true;
  }

  @Override
  List<Expression> operands() {
    return List.of(index);
  }

  @Override
  boolean readsAnything() {
    return true;
  }

  @Override
  void collectReads(List<Symbol> found) {
    super.collectReads(found);
    if (!found.contains(array.first())) {
      found.add(array.first());
    }
  }

  @Override
  int ownBytes() {
    return 28;
  }

  @Override
  void emit(Code code) {
    code.put(index);
    emitPlace(array, code);
    if (type() == Type.STRING) {
      code.push(array.stride());
      code.place(place());
      code.call(Element.class, "text", "(JIIII[JI)J");
    } else {
      code.place(place());
      code.call(Element.class, "value", "(JIII[JI)J");
    }
  }

  /** Leaves bounds and first cell on the stack. */
  static void emitPlace(ArrayOf array, Code code) {
    code.push(array.bounds().least());
    code.push(array.bounds().greatest());
    code.cell(array.first());
  }
}
