package bufferstop.load;

import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.ModbusMap.Gap;
import java.util.List;

/**
 * What a list of map entries holds.
 *
 * @param sections names of its sections, in lower case
 */
record MapEntries(List<Entry> entries, List<Gap> gaps, List<String> sections) {}
