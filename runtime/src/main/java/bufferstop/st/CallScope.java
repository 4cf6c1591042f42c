package bufferstop.st;

import bufferstop.model.Scope;
import java.util.Collection;

/**
 * The names that expressions may use, with the functions they may call and the instances of blocks
 * that statements may call. Names are case-insensitive.
 */
public interface CallScope extends Scope {

  /** The user's function of that name, or null. */
  UserFunction function(String name);

  /** The names of all users' functions, for suggestions. */
  Collection<String> functions();

  /** The instance of that name, or null. */
  Instance instance(String name);

  /** The names of all instances, for suggestions. */
  Collection<String> instances();

  /** What kind of name is missing when there is none, as half a sentence: {@code point}. */
  String kindOfNames();

  /** Why a name that is not there may have been expected; may be empty. */
  String helpAbout(String name);
}
