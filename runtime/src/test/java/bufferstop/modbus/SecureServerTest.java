package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.ModbusMap.Table;
import bufferstop.model.Serving.Permission;
import bufferstop.model.Serving.Sections;
import bufferstop.model.Type;
import java.io.IOException;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.cert.X509Certificate;
import java.util.List;
import java.util.Map;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocket;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The server inside TLS. Source of the Q rows: Modbus/TCP Security Protocol Specification,
 * MB-TCP-Security-v36 [re-read].
 */
class SecureServerTest {
  private static final String NEWEST = "TLSv1.3";
  private static final String READ = "03 00 00 00 01";
  private static final String ZERO = "03 02 00 00";

  @TempDir static Path folder;
  private static BenchCertificates certificates;
  private static BenchCertificates others;

  private final Bench bench =
      new Bench()
          .section("state")
          .operator(Table.HOLDING_REGISTER, 0, Type.UINT)
          .section("commands")
          .operator(Table.COIL, 0, Type.BOOL)
          .scanned();
  private final RunningScans scans = new RunningScans(bench);
  private ModbusServer server;

  @BeforeAll
  static void makeCertificates() throws Exception {
    certificates = BenchCertificates.in(folder.resolve("ours"), "Operator", "Viewer", "Stoker");
    others = BenchCertificates.in(folder.resolve("theirs"), "Operator");
  }

  @BeforeEach
  void start() throws IOException {
    Sections state = new Sections(false, List.of("state"));
    Map<String, Permission> roles =
        Map.of("Operator", Permission.ALL, "Viewer", new Permission(state, Sections.NONE));
    server = secure(certificates, roles, new Permission(state, Sections.NONE));
    scans.begin();
  }

  private ModbusServer secure(
      BenchCertificates from, Map<String, Permission> roles, Permission withoutRole)
      throws IOException {
    ModbusServer started =
        new ModbusServer(
            "hmi",
            List.of(bench.unit(Bench.UNIT)),
            "127.0.0.1",
            0,
            ModbusServer.Limits.STANDARD,
            Credentials.load(from.secure(roles, withoutRole)));
    started.start();
    return started;
  }

  @AfterEach
  void close() {
    server.close();
    scans.close();
  }

  private Client connect(String certificate, String protocol) throws Exception {
    return BenchCertificates.connect(certificates.client(certificate), server.port(), protocol);
  }

  @ParameterizedTest(name = "{0}")
  @ValueSource(strings = {"TLSv1.2", "TLSv1.3"})
  void q1Q2TheFramesAreThoseOfPlainModbus(String protocol) throws Exception {
    try (Client client = connect("client-Operator", protocol)) {
      client.sendHex("15 01 00 00 00 06 FF 03 00 00 00 01");
      assertEquals("15 01 00 00 00 05 FF 03 02 00 00", client.receiveHex());
      assertEquals("05 00 00 FF 00", client.answer("05 00 00 FF 00"));
      assertEquals("01 01 01", client.answer("01 00 00 00 01"));
    }
  }

  /** The alert is protocol_version, 70. Source: RFC 8446, 6 [from memory, not re-read]. */
  @ParameterizedTest(name = "version 03 0{0}")
  @ValueSource(ints = {0, 1, 2})
  void q2OlderVersionsAreRefusedWithAnAlert(int minor) throws IOException {
    String hello =
        ("03 0" + minor)
            + " 00".repeat(32) // random
            + "00" // no session
            + "00 04 C0 13 00 2F" // suites of those days
            + "01 00"; // no compression
    int length = Bench.bytes(hello).length;
    String message = String.format("01 00 00 %02X", length) + hello;
    try (Client client = new Client(server.port())) {
      client.sendHex("16 03 01 00" + String.format("%02X", length + 4) + message);
      assertEquals("15 03", Bench.hex(client.bytes(7)).substring(0, 5));
      assertTrue(client.isClosedByServer());
    }
  }

  @ParameterizedTest(name = "{0} with {1}")
  @CsvSource({
    "Q6 Q7, TLS_ECDHE_ECDSA_WITH_AES_128_GCM_SHA256",
    "Q6 Q7, TLS_ECDHE_ECDSA_WITH_AES_256_GCM_SHA384"
  })
  void suitesOfEllipticCurves(String row, String suite) throws Exception {
    try (Client client = withSuite(certificates, suite)) {
      assertEquals(ZERO, client.answer(READ), row);
    }
  }

  private Client withSuite(BenchCertificates from, String suite) throws Exception {
    SSLContext context = from.client("client-Operator");
    SSLSocket tls = (SSLSocket) context.getSocketFactory().createSocket("127.0.0.1", server.port());
    tls.setEnabledProtocols(new String[] {"TLSv1.2"});
    tls.setEnabledCipherSuites(new String[] {suite});
    tls.startHandshake();
    return new Client(tls);
  }

  @Test
  void q6TheMandatorySuiteOfRsa() throws Exception {
    server.close();
    BenchCertificates rsa = BenchCertificates.in(folder.resolve("rsa"), "--rsa", "Operator");
    server = secure(rsa, Map.of("Operator", Permission.ALL), null);
    try (Client client = withSuite(rsa, "TLS_ECDHE_RSA_WITH_AES_128_GCM_SHA256")) {
      assertEquals(ZERO, client.answer(READ));
    }
  }

  @ParameterizedTest(name = "{0}")
  @ValueSource(
      strings = {"TLS_ECDHE_ECDSA_WITH_AES_128_CBC_SHA", "TLS_ECDHE_ECDSA_WITH_AES_128_CBC_SHA256"})
  void q9SuitesWithoutAnAuthenticatedModeAreNotOffered(String suite) {
    assertThrows(IOException.class, () -> withSuite(certificates, suite).close());
  }

  @Test
  void q3WithoutACertificateTheHandshakeFails() {
    assertThrows(IOException.class, () -> connect(null, "TLSv1.2").close());
  }

  /** In TLS 1.3 the client learns of it with what it reads first. */
  @Test
  void q3WithoutACertificateNothingIsAnswered() throws Exception {
    try (Client client = connect(null, NEWEST)) {
      assertThrows(Exception.class, () -> client.answer(READ));
    }
  }

  @Test
  void q4TheChainIsSentDownToTheRoot() throws Exception {
    SSLContext context = certificates.client("client-Operator");
    try (SSLSocket tls =
        (SSLSocket) context.getSocketFactory().createSocket("127.0.0.1", server.port())) {
      tls.startHandshake();
      X509Certificate[] chain = (X509Certificate[]) tls.getSession().getPeerCertificates();
      assertEquals(2, chain.length);
      assertEquals(certificates.certificate("authority"), chain[1]);
    }
  }

  @Test
  void q5ACertificateOfAnotherAuthorityIsRefused() throws Exception {
    // the client trusts our server but shows a certificate of theirs
    Files.copy(others.file("client-Operator.pem"), certificates.file("foreign.pem"));
    Files.copy(others.file("client-Operator.key"), certificates.file("foreign.key"));
    assertThrows(IOException.class, () -> connect("foreign", "TLSv1.2").close());
  }

  @Test
  void q14ToQ17RolesDecideAndARefusalLeavesTheConnectionOpen() throws Exception {
    try (Client viewer = connect("client-Viewer", NEWEST);
        Client operator = connect("client-Operator", NEWEST)) {
      assertEquals(ZERO, viewer.answer(READ));
      assertEquals("86 01", viewer.answer("06 00 00 00 07"));
      assertEquals("81 01", viewer.answer("01 00 00 00 01"));
      assertEquals("06 00 00 00 07", operator.answer("06 00 00 00 07"));
      assertEquals("03 02 00 07", viewer.answer(READ));
    }
  }

  @Test
  void q16WithoutARoleTheRulesForThatDecide() throws Exception {
    try (Client client = connect("client-without-role", NEWEST)) {
      assertEquals(ZERO, client.answer(READ));
      assertEquals("81 01", client.answer("01 00 00 00 01"));
    }
  }

  @Test
  void q18ARoleTheProjectDoesNotNameMayNothing() throws Exception {
    try (Client client = connect("client-Stoker", NEWEST)) {
      assertEquals("83 01", client.answer(READ));
      assertEquals("86 01", client.answer("06 00 00 00 07"));
      assertEquals("AB 01", client.answer("2B 0E 01 00"));
    }
  }

  @Test
  void withoutRolesAGoodCertificateIsEnough() throws Exception {
    server.close();
    server = secure(certificates, Map.of(), null);
    try (Client client = connect("client-Stoker", NEWEST)) {
      assertEquals("06 00 00 00 07", client.answer("06 00 00 00 07"));
    }
  }

  @ParameterizedTest(name = "{0}")
  @ValueSource(strings = {"TLSv1.2", "TLSv1.3"})
  void q19AResumedSessionKeepsItsRole(String protocol) throws Exception {
    SSLContext viewer = certificates.client("client-Viewer");
    long[] created = new long[2];
    for (int i = 0; i < created.length; i++) {
      SSLSocket tls =
          (SSLSocket)
              viewer
                  .getSocketFactory()
                  .createSocket(
                      new Socket("127.0.0.1", server.port()), "127.0.0.1", server.port(), true);
      tls.setEnabledProtocols(new String[] {protocol});
      try (Client client = new Client(tls)) {
        assertEquals("86 01", client.answer("06 00 00 00 07"));
        assertEquals(ZERO, client.answer(READ));
        created[i] = tls.getSession().getCreationTime();
      }
    }
    assertEquals(created[0], created[1], "the second session is not the first one resumed");
  }

  @Test
  void plainModbusOnTheSecurePortIsNotAnswered() throws Exception {
    try (Client client = new Client(server.port())) {
      client.sendHex("00 01 00 00 00 06 01 03 00 00 00 01");
      byte[] all = client.rest();
      // at most an alert comes back
      assertTrue(all.length == 0 || all[0] == 0x15, Bench.hex(all));
    }
  }

  @Test
  void aSilentHandshakeHoldsUpNobody() throws Exception {
    try (Client silent = new Client(server.port());
        Client half = new Client(server.port());
        Client good = connect("client-Operator", NEWEST)) {
      half.sendHex("16 03 01 00 40 01");
      assertEquals(ZERO, good.answer(READ));
      assertEquals(3, server.clients());
      silent.sendHex("00");
    }
  }

  @Test
  void plainAndSecureStandSideBySideOnOneImage() throws Exception {
    try (ModbusServer plain = bench.server(ModbusServer.Limits.STANDARD)) {
      plain.start();
      try (Client open = new Client(plain.port());
          Client secured = connect("client-Operator", NEWEST)) {
        assertEquals("06 00 00 12 34", open.answer("06 00 00 12 34"));
        assertEquals("03 02 12 34", secured.answer(READ));
      }
    }
  }

  @Test
  void closeLeavesNoThread() throws Exception {
    try (Client client = connect("client-Operator", NEWEST);
        Client silent = new Client(server.port())) {
      assertEquals(ZERO, client.answer(READ));
      silent.sendHex("16");
      server.close();
      assertEquals(List.of(), LiveThreads.named("modbus-hmi"));
    }
  }

  /** Source: 8.4 and figure 9 for the string; the DER bytes were checked with OpenSSL. */
  @Test
  void theRoleIsTheTextInsideTheExtension() throws IOException {
    X509Certificate certificate = certificates.certificate("client-Operator");
    assertArrayEquals(
        Bench.bytes("04 0A 0C 08 4F 70 65 72 61 74 6F 72"),
        certificate.getExtensionValue("1.3.6.1.4.1.50316.802.1"));
    assertEquals("Operator", Role.of(certificate));
    assertEquals(null, Role.of(certificates.certificate("client-without-role")));
  }
}
