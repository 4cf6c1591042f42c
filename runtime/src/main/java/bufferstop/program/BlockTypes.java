package bufferstop.program;

import bufferstop.blocks.StandardBlocks;
import bufferstop.image.Layout;
import bufferstop.model.Code;
import bufferstop.model.Diagnostic;
import bufferstop.model.Diagnostics;
import bufferstop.model.Name;
import bufferstop.model.NearNames;
import bufferstop.model.Routine;
import bufferstop.model.Symbol;
import bufferstop.st.BlockType;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** The function blocks a controller may use, by name. */
final class BlockTypes {
  private final Map<String, BlockType> byName = new LinkedHashMap<>(); // upper case

  private BlockTypes() {}

  /** The standard ones. */
  static BlockTypes of() {
    BlockTypes types = new BlockTypes();
    StandardBlocks.all().forEach(types::add);
    return types;
  }

  void add(BlockType type) {
    byName.put(type.name().toUpperCase(Locale.ROOT), type);
  }

  /** Reports a block that is not there, unless a wrong declaration of it was reported. */
  void reportUnknown(Name name, Diagnostics problems) {
    if (!Routine.isDoubted(name.text(), problems)) {
      problems.add(
          Diagnostic.error(
                  Code.UNKNOWN_NAME, name.position(), "no block named `" + name.text() + "`")
              .expected(String.join(", ", names()))
              .help(NearNames.question(name.text(), names())));
    }
  }

  /** The block of that name in any case, or null. */
  BlockType named(String name) {
    return byName.get(name.toUpperCase(Locale.ROOT));
  }

  List<String> names() {
    return byName.values().stream().map(BlockType::name).toList();
  }

  /** The first cell of an instance, its inputs stand before its first output. */
  Symbol instance(String name, BlockType type, Layout layout) {
    Symbol output = layout.controller().find(name + "." + type.outputs().get(0).name());
    return layout.symbol(output.index() - BlockType.cells(type.inputs()));
  }
}
