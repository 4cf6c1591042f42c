package bufferstop.st;

import bufferstop.model.Symbol;

/** Says which symbols statements may assign. */
public interface Assignable {

  /** Null when {@code symbol} may be assigned, else why not, as half a sentence. */
  String refusal(Symbol symbol);
}
