package bufferstop.load;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Diagnostics;
import bufferstop.model.ModbusMap;
import bufferstop.model.ModbusMap.ByteOrder;
import bufferstop.model.ModbusMap.Entry;
import bufferstop.model.ModbusMap.Scale;
import bufferstop.model.ModbusMap.Table;
import bufferstop.model.ModbusMap.WordOrder;
import bufferstop.model.Project;
import bufferstop.model.Serving;
import bufferstop.model.Type;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the modbus section means when it is right; what is wrong is in the corpus. */
class ModbusLoaderTest {
  private static final String HEAD =
      """
      project: Gravel siding
      controller:
        inputs:
          beam: {type: BOOL}
          level: {type: REAL}
        operator:
          start: {type: BOOL}
          wanted: {type: UDINT}
      modbus:
        hmi:
          listen: 127.0.0.1:1502
      """;

  @TempDir Path folder;

  private List<ModbusMap> maps(String rest) throws IOException {
    Path file = folder.resolve("project.yaml");
    Files.writeString(file, HEAD + rest.indent(4));
    Diagnostics problems = new Diagnostics();
    Project project = ProjectLoader.read(file, problems);
    assertFalse(problems.hasErrors(), problems.sorted()::toString);
    return project.maps();
  }

  @Test
  void ordersOfAMapHoldForItsEntriesUnlessTheySayOtherwise() throws IOException {
    List<Entry> entries =
        maps("""
        word_order: low_word_first
        byte_order: low_byte_first
        map:
          - {point: wanted, holding_register: 0}
          - {point: wanted, input_register: 0, word_order: high_word_first}
        """)
            .get(0)
            .entries();
    assertEquals(WordOrder.LOW_WORD_FIRST, entries.get(0).coding().words());
    assertEquals(ByteOrder.LOW_BYTE_FIRST, entries.get(0).coding().bytes());
    assertEquals(WordOrder.HIGH_WORD_FIRST, entries.get(1).coding().words());
    assertEquals(ByteOrder.LOW_BYTE_FIRST, entries.get(1).coding().bytes());
  }

  @Test
  void aScaleHasTheBoundsOfItsNumberWithoutTheSentinel() throws IOException {
    List<Entry> entries =
        maps("""
        map:
          - {point: level, input_register: 0, as: UINT, scale: 0.5, sentinel: 16#FFFF}
          - {point: level, input_register: 1, as: INT, range: [-5, 40.5]}
        """)
            .get(0)
            .entries();
    Scale half = entries.get(0).coding().scale();
    assertEquals(new Scale(Type.UINT, 0.5, 0, 32_767, 0xFFFFL), half);
    assertEquals(new Scale(Type.INT, 1, -5, 40.5, null), entries.get(1).coding().scale());
  }

  @Test
  void allPointsOfAKindGoWhereTheirTypeBelongs() throws IOException {
    List<Entry> entries =
        maps("""
        map:
          - {all: operator}
          - {all: inputs}
        """)
            .get(0)
            .entries();
    List<Table> tables = entries.stream().map(Entry::table).toList();
    assertEquals(
        List.of(Table.COIL, Table.HOLDING_REGISTER, Table.DISCRETE_INPUT, Table.INPUT_REGISTER),
        tables);
    assertTrue(entries.stream().allMatch(e -> e.address() == ModbusMap.AUTO));
  }

  @Test
  void sectionsHoldForWhatFollowsThem() throws IOException {
    List<Entry> entries =
        maps("""
        map:
          - {point: start, coil: 0}
          - {section: Figures}
          - {point: wanted, holding_register: 0}
        """)
            .get(0)
            .entries();
    assertEquals("", entries.get(0).section());
    assertEquals("figures", entries.get(1).section());
  }

  @Test
  void aFurtherUnitHasItsOwnMapAndSharesTheListener() throws IOException {
    List<ModbusMap> maps =
        maps(
            """
            clients: {most: 3}
            map: [{point: start, coil: 0}]
            units:
              meter:
                unit: 5
                identification: {product: Meter}
                map: [{point: level, input_register: 7}]
            """);
    ModbusMap meter = maps.get(1);
    assertEquals("hmi.meter", meter.name());
    assertEquals("hmi", meter.face());
    assertEquals(5, meter.unit());
    assertEquals(1502, meter.port());
    assertEquals(3, meter.serving().connections());
    assertEquals("Meter", meter.serving().identification().get(4));
    assertNull(maps.get(0).serving().identification().get(4));
    assertEquals("Gravel siding", meter.serving().identification().get(6));
  }

  @Test
  void clientsAreLimitedByNumberTimeAndAddress() throws IOException {
    Serving serving =
        maps("""
        clients:
          per_address: 2
          idle: T#5m
          from: [192.168.4.0/22, "::1"]
          writers: 192.168.4.7
          priority: []
        map: []
        """)
            .get(0)
            .serving();
    assertEquals(256, serving.connections());
    assertEquals(2, serving.perAddress());
    assertEquals(300_000_000L, serving.idleMicros());
    assertEquals(22, serving.from().get(0).bits());
    assertEquals(128, serving.from().get(1).bits());
    assertArrayEquals(new byte[] {(byte) 192, (byte) 168, 4, 7}, serving.writers().get(0).prefix());
    assertTrue(serving.priority().isEmpty());
  }

  @Test
  void rolesMapToSectionsOfAllUnits() throws IOException {
    for (String name : List.of("server.pem", "server.key", "authority.pem")) {
      Files.writeString(folder.resolve(name), "");
    }
    Serving.Secure secure =
        maps("""
        secure:
          listen: 0.0.0.0:802
          certificate: server.pem
          key: server.key
          authorities: authority.pem
          roles:
            Operator: {read: all, write: [commands, Limits]}
            Viewer: {read: [limits]}
          without_role: {}
        map:
          - {section: commands}
          - {point: start, coil: 0}
        units:
          meter:
            unit: 2
            map:
              - {section: limits}
              - {point: wanted, holding_register: 0}
        """)
            .get(0)
            .serving()
            .secure();
    assertEquals(802, secure.port());
    assertEquals(folder.resolve("server.pem"), secure.certificate());
    assertTrue(secure.roles().get("Operator").read().all());
    assertEquals(List.of("commands", "limits"), secure.roles().get("Operator").write().names());
    assertEquals(List.of("limits"), secure.roles().get("Viewer").read().names());
    assertTrue(secure.roles().get("Viewer").write().isEmpty());
    assertTrue(secure.withoutRole().read().isEmpty());
  }

  @Test
  void aProjectMayListenWithTlsAlone() throws IOException {
    Path file = folder.resolve("project.yaml");
    for (String name : List.of("server.pem", "server.key", "authority.pem")) {
      Files.writeString(folder.resolve(name), "");
    }
    Files.writeString(
        file,
        """
        project: Gravel siding
        modbus:
          hmi:
            secure:
              listen: 127.0.0.1:802
              certificate: server.pem
              key: server.key
              authorities: authority.pem
            map: []
        """);
    Diagnostics problems = new Diagnostics();
    ModbusMap map = ProjectLoader.read(file, problems).maps().get(0);
    assertFalse(problems.hasErrors(), problems.sorted()::toString);
    assertEquals("", map.host());
    assertEquals(-1, map.port());
  }
}
