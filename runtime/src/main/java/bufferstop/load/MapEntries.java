package bufferstop.load;

import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.ModbusMap.Fixed;
import java.util.List;

/**
 * What a list of map entries holds.
 *
 * @param sections names of its sections, in lower case
 */
record MapEntries(List<Entry> entries, List<Fixed> gaps, List<String> sections) {
  static final MapEntries NONE = new MapEntries(List.of(), List.of(), List.of());
}
