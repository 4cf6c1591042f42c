package bufferstop.model;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** The kinds of mistakes, each with what {@code check --explain} says of it. */
public enum Code {
  NO_SUCH_FILE(
      "A file or folder that is named does not exist or cannot be read.",
      "Nothing of what it holds is part of the project, so the rest cannot be judged.",
      "Create it, or correct the name; names are relative to the project's folder."),
  UNREADABLE_FILE(
      "A file is no UTF-8 text, is empty, is too large or has a character that no text has.",
      "It would be read differently on different machines, or not at all.",
      "Save it as UTF-8 with the editor, or take out the character that is marked."),
  BAD_FILE_NAME(
      "What stands where a file is named cannot be a file's name.",
      "A project must be able to move to another machine as one folder.",
      "Give the name of a file in the project's folder or below it."),
  NOT_YAML(
      "The text breaks the rules of YAML, or uses a part of YAML that is not read here: "
          + "tags, anchors, aliases.",
      "Where lines and levels are not clear, what is meant must not be guessed.",
      "Mend the marked place: most often an indent, a bracket or a quote; write out what an "
          + "alias would repeat."),
  QUOTES_NEEDED(
      "A comma or bracket of an expression ends the value, since YAML reads it first.",
      "The expression would be cut short without a word.",
      "Put the whole expression into double quotes."),
  GIVEN_TWICE(
      "The same key, label, value or alternative is given twice in one place.",
      "One of the two would win without a word.",
      "Keep one of them."),
  WRONG_KIND(
      "A list, a table or a single value stands where one of the others belongs.",
      "The words are understood, but not in this shape.",
      "Write it in the shape that `expected:` shows."),
  UNKNOWN_KEY(
      "A key is not known where it stands.",
      "A misspelt key would otherwise be a setting that is never made.",
      "Take a key that the message offers, or move it to where it belongs."),
  MISSING_KEY(
      "A key that is needed is missing.",
      "There is no default that would be right for everybody.",
      "Add the key."),
  KEY_DOES_NOT_FIT(
      "A key is known, but does not go with what else is declared here.",
      "It would have no effect, or contradict the other.",
      "Take it out, or change what it contradicts."),
  CHOOSE_ONE(
      "Exactly one of several keys must say what is meant; none or several are given.",
      "Which of them holds must not be guessed.",
      "Keep one of those that `expected:` names."),
  NOTHING_GIVEN(
      "A declaration holds nothing: no condition, no values, no expectation, no names.",
      "It could never do anything, and a test without an expectation could not fail.",
      "Say what it holds, or take it out."),
  BAD_NAME(
      "A name breaks the rules of identifiers or is taken by the language.",
      "It could not be told from a literal or a keyword in an expression.",
      "Begin with a letter, go on with letters, digits and single underscores, and keep "
          + "clear of reserved words."),
  DECLARED_TWICE(
      "Two things have one name; letters large and small count as the same.",
      "An expression could not say which it means.",
      "Rename one of them."),
  UNKNOWN_NAME(
      "A name stands for nothing that is declared.",
      "What is not there cannot be read or written.",
      "Correct the spelling, or declare it in the section that `help:` names."),
  WRONG_THING(
      "A name is declared, but as something else than is needed here.",
      "A block is no function, an array no number, an input no command of the operator.",
      "Take the name of a thing of the kind that `expected:` says."),
  UNKNOWN_TYPE(
      "A type is not known, or cannot be built as it is written.",
      "The size and rules of its values would not be known.",
      "Take an elementary type, a STRING with a length, an array with its bounds, or an "
          + "enumeration of the project."),
  UNKNOWN_MODEL(
      "No plant model of this name was found.",
      "Without it the plant cannot be simulated.",
      "Correct the name, or give the folder of its jar with `--plants`."),
  BAD_LITERAL(
      "A value is not written as a literal of its type.",
      "A value that can be read in two ways would be read in the wrong one some day.",
      "Write it as `expected:` shows."),
  OUT_OF_RANGE(
      "A value lies outside what its type, its range or its meaning allows.",
      "It could not be kept, or nothing could work with it.",
      "Take a value within the bounds that `expected:` gives."),
  BAD_RANGE(
      "Two bounds are not given as a pair, are the wrong way round, or hold nothing.",
      "No value would be allowed.",
      "Give the lesser bound first, then the greater."),
  BAD_TIMES(
      "Times contradict one another: an end before its beginning, a step that does not "
          + "divide the scan, a limit that comes too soon.",
      "What is meant could never happen, or not at equal steps.",
      "Change one of the two times; the message names both."),
  TIME_NOT_WANTED(
      "A time is given where none is taken, or is missing where one is needed.",
      "The action or fault would not do what is written.",
      "Add the time, or take it out."),
  VALUE_NOT_WANTED(
      "A value is given where none is taken, or is missing where one is needed.",
      "The fault or stimulus would not do what is written.",
      "Add the value, or take it out."),
  WRONG_TYPE(
      "An expression or value has another type than is needed.",
      "Conversions are written out, so that a loss is never silent.",
      "Change the expression, or write the conversion, such as `TO_REAL(x)`."),
  TOO_MANY(
      "Something is larger than the runtime holds: labels, elements, inputs, levels, "
          + "characters.",
      "A scan must stay bounded in time and memory.",
      "Split it."),
  SYNTAX(
      "An expression or statement breaks the rules of Structured Text.",
      "What is meant cannot be told for certain.",
      "Mend the marked place as `expected:` or `help:` says; put brackets where two "
          + "readings are possible."),
  NOT_ALLOWED_HERE(
      "A statement is known, but refused where it stands: RETURN in the logic, EXIT outside "
          + "a loop, WHILE.",
      "It would have no meaning there, or nothing would bound the scan.",
      "Use what `help:` offers."),
  CANNOT_BE_ASSIGNED(
      "What is assigned is a constant, an input or the variable of its own loop.",
      "Such a value comes from elsewhere, and two sources would fight.",
      "Assign an output or an internal point, or use a variable of your own."),
  BAD_CALL(
      "A call has too few, too many, misnamed or repeated inputs.",
      "A block or function would run with values that nobody gave.",
      "Give each input once, by its name, as `expected:` lists them."),
  RECURSION(
      "A function, block or sequence calls or holds itself, directly or by others.",
      "Nothing would bound the scan or the memory.",
      "Take the call out that closes the circle."),
  NO_VALUE(
      "A result is never set, or a value that is worked out is used by nobody.",
      "The one is always 0, the other was probably meant for a point.",
      "Assign it."),
  ALWAYS_SO(
      "An operation gives the same whatever its operands, or always raises an error.",
      "The line was meant to decide something.",
      "Correct the operand, or write the constant."),
  TWO_WRITERS(
      "Two parts of the controller write one point.",
      "The last in the scan would win, and which that is nobody reads from the file.",
      "Let one part own it, and give the others points of their own that the owner reads."),
  MISSING_INPUT(
      "A block needs an input that is never given.",
      "It would work with the initial value for ever.",
      "Give the input where the block is declared or called."),
  NEVER_CALLED(
      "A block, function or alternative is declared and never comes into play.",
      "It costs nothing but was meant to do something.",
      "Use it, or take it out."),
  BAD_ACTION(
      "An action of a step does not say properly what it does.",
      "The step would be active without effect.",
      "Write a qualifier, a time where it needs one, and the point or action."),
  UNREACHABLE_STEP(
      "Nothing leads to a step.",
      "It can never be active, so its actions never run.",
      "Add a transition to it, or take it out."),
  STEP_WITHOUT_EXIT(
      "No transition leads out of a step.",
      "Once there, the sequence stays until it is aborted.",
      "Add a transition, or an abort that brings it back."),
  UNSAFE_CHART(
      "A chart may activate a step that is active already.",
      "Two runs of the step become one, and the chart loses count of what it does.",
      "Let parallel branches end together before they begin again."),
  DEAD_JOIN(
      "Steps that a transition waits for are never active together.",
      "The transition can never be crossed.",
      "Make the steps parallel branches, or take one of them out of the transition."),
  NO_INITIAL_STEP(
      "A sequence has no step to begin with.",
      "Nothing of it would ever be active.",
      "Mark a step `initial: TRUE`."),
  BAD_INTERLOCK(
      "The parts of an interlock contradict its kind.",
      "A permissive stops nothing that runs, a vote needs channels that are there.",
      "Follow `help:`; configs/README.md says what each kind does."),
  NOT_WIRED(
      "A point or port that must have a wire has none, or none that can carry it.",
      "It would keep its initial value whatever the plant does.",
      "Add a wire, or take the point out."),
  WIRED_TWICE(
      "Two wires lead to one place or have one name.",
      "Two sources would drive one terminal, and a fault could not say which it means.",
      "Keep one, or join them by a circuit."),
  BAD_WIRE(
      "A wire's ends do not go together: type or direction.",
      "A signal has one source and keeps its type.",
      "Turn it round, or wire what fits."),
  PULSE_TOO_SHORT(
      "A sensor's pulse may be shorter than the filter and the scan need.",
      "The controller would miss it now and then, and only on the bench.",
      "Make the filter or the scan shorter, or latch the pulse in the field."),
  BAD_FAULT(
      "A fault does not exist for what it acts on, or lacks what it needs.",
      "The scenario would show nothing.",
      "Take a fault that `expected:` names."),
  PLANT_SETTINGS(
      "A plant model refuses its settings, or doubts them.",
      "The model knows what it can simulate; the words are its own.",
      "Follow `expected:` and `help:`, and the model's README."),
  PLANT_MODEL_BROKEN(
      "A plant model cannot be loaded or does not keep to the plug-in contract.",
      "Nothing it says could be relied upon.",
      "Mend the model, or take its jar away; plant-models/README.md has the contract and "
          + "its test."),
  ADDRESS_TAKEN(
      "A register, coil, unit or position is taken twice, or there is no room for it.",
      "A client would read one value for another.",
      "Take the next free one, which `help:` names where there is one."),
  PAST_THE_END(
      "An entry runs past the end of its table.",
      "No request can name such an address.",
      "Begin earlier, or move it to another map."),
  DOES_NOT_FIT_TABLE(
      "A point does not fit its Modbus table, scale or meter.",
      "A client could not read it as it is meant.",
      "Follow `expected:` and `help:`."),
  BAD_ADDRESS(
      "What stands there is no network address.",
      "Nothing could be listened or connected to.",
      "Write HOST:PORT, or an IP address."),
  BAD_STIMULUS(
      "A stimulus does not say clearly what it does and when.",
      "Two people would expect two different runs.",
      "Give one deed and one moment."),
  CANNOT_BE_JUDGED(
      "An expectation names what cannot be observed here.",
      "Its verdict is inconclusive, never passed.",
      "Correct the name, or run the scenario where the name exists."),
  NOT_REFUSED(
      "A write that is to be refused is allowed.",
      "The expectation could only fail.",
      "Write a value out of range, or take `refused` away."),
  BAD_RECORDING(
      "A recording or stored run is damaged, is something else, or belongs to another "
          + "project.",
      "What it would show did not happen with this project.",
      "Take the recording of this project, or record anew."),
  BAD_TARIFF(
      "A tariff leaves times without a rate, names one that cannot hold, or has gaps.",
      "Some energy would have no price or two.",
      "Follow `help:`; every moment needs one rate.");

  private final String meaning;
  private final String reason;
  private final String remedy;

  Code(String meaning, String reason, String remedy) {
    this.meaning = meaning;
    this.reason = reason;
    this.remedy = remedy;
  }

  /** As users see it: {@code unknown-name}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** What such a problem is, one sentence. */
  public String meaning() {
    return meaning;
  }

  /** Why it matters, one sentence. */
  public String reason() {
    return reason;
  }

  /** How to mend it, one sentence. */
  public String remedy() {
    return remedy;
  }

  /** The code of this word, in whatever case. */
  public static Optional<Code> of(String word) {
    return Arrays.stream(values()).filter(c -> c.word().equalsIgnoreCase(word)).findFirst();
  }
}
