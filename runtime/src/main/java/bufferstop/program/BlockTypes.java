package bufferstop.program;

import bufferstop.blocks.StandardBlocks;
import bufferstop.image.Layout;
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

  static BlockTypes of() {
    BlockTypes types = new BlockTypes();
    StandardBlocks.all().forEach(type -> types.byName.put(type.name(), type));
    return types;
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
    return layout.symbol(output.index() - type.inputs().size());
  }
}
