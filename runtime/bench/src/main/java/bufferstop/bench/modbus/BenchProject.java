package bufferstop.bench.modbus;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A project that serves 2000 coils and 125 holding registers, all of them operator points. */
final class BenchProject {
  static final int COILS = 2000;
  static final int REGISTERS = 125;
  static final int SCAN_MILLIS = 10;

  private BenchProject() {}

  /** Writes it. */
  static Path in(Path folder) throws IOException {
    StringBuilder points = new StringBuilder();
    StringBuilder map = new StringBuilder();
    for (int i = 0; i < COILS; i++) {
      points.append("    c").append(i).append(": {type: BOOL}\n");
      map.append("      - {point: c").append(i).append(", coil: ").append(i).append("}\n");
    }
    for (int i = 0; i < REGISTERS; i++) {
      points.append("    r").append(i).append(": {type: UINT}\n");
      map.append("      - {point: r").append(i).append(", holding_register: ");
      map.append(i).append("}\n");
    }
    Files.writeString(
        folder.resolve("project.yaml"),
        "project: Modbus under load\nscan: T#"
            + SCAN_MILLIS
            + "ms\ncontroller:\n  operator:\n"
            + points
            + "modbus:\n  hmi:\n    listen: 127.0.0.1:0\n    map:\n"
            + map);
    return folder;
  }
}
