package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bufferstop.model.Serving.Permission;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Arrays;
import java.util.Date;
import java.util.List;
import java.util.Map;
import javax.net.ssl.SSLContext;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is said of certificates and keys that will not do, and of clients that show such. */
class CredentialsTest {
  @TempDir Path folder;
  private BenchCertificates certificates;

  @BeforeEach
  void makeCertificates() throws Exception {
    certificates = BenchCertificates.in(folder, "Operator");
  }

  private String refusal() {
    return assertThrows(
            IOException.class,
            () -> Credentials.load(certificates.secure(Map.of(), Permission.NONE)))
        .getMessage();
  }

  private void assertRefused(String... parts) {
    String message = refusal();
    for (String part : parts) {
      assertTrue(message.contains(part), message);
    }
  }

  @Test
  void aMissingFile() throws IOException {
    Files.delete(certificates.file("server.key"));
    assertRefused("there is no file", "server.key", "bench-certs");
  }

  @Test
  void aFileWithoutACertificate() throws IOException {
    Files.writeString(certificates.file("authority.pem"), "nothing\n");
    assertRefused("authority.pem holds no certificate");
  }

  @Test
  void aKeyOfAnotherCertificate() throws IOException {
    Files.copy(
        certificates.file("client-Operator.key"),
        certificates.file("server.key"),
        StandardCopyOption.REPLACE_EXISTING);
    assertRefused("server.key is not the key of the certificate beside it");
  }

  @Test
  void anEncryptedKey() throws Exception {
    BenchCertificates.run(
        folder,
        "openssl",
        "pkcs8",
        "-topk8",
        "-in",
        "client-Operator.key",
        "-out",
        "server.key",
        "-passout",
        "pass:bench");
    assertRefused("ENCRYPTED", "expected PKCS #8, not encrypted");
  }

  @Test
  void aChainThatDoesNotEndInARoot() throws Exception {
    String chain = Files.readString(certificates.file("server.pem"));
    String alone = chain.substring(0, chain.indexOf("-----END") + 25);
    Files.writeString(certificates.file("server.pem"), alone + "\n");
    assertRefused("which is no root", "append");
  }

  @Test
  void anExpiredCertificate() throws Exception {
    expire("server");
    assertRefused("server.pem", "expired on", "bench-certs makes new ones");
  }

  /** Replaces a certificate by one that ends now, and waits for that moment to pass. */
  private void expire(String name) throws Exception {
    BenchCertificates.run(
        folder,
        "openssl",
        "req",
        "-new",
        "-key",
        name + ".key",
        "-subj",
        "/CN=old",
        "-out",
        "old.csr");
    BenchCertificates.run(
        folder,
        "openssl",
        "x509",
        "-req",
        "-in",
        "old.csr",
        "-CA",
        "authority.pem",
        "-CAkey",
        "authority.key",
        "-CAcreateserial",
        "-days",
        "0",
        "-out",
        name + ".pem");
    Date end = certificates.uncheckedCertificate(name).getNotAfter();
    Awaitility.await().until(() -> new Date().after(end));
  }

  /** A bench with a server for these certificates; clients are refused when they connect. */
  private void assertClientRefused(SSLContext client) throws Exception {
    Bench bench = Bench.hundredOfEach();
    try (ModbusServer server =
        new ModbusServer(
            "hmi",
            List.of(bench.unit(Bench.UNIT)),
            "127.0.0.1",
            0,
            ModbusServer.Limits.STANDARD,
            Credentials.load(certificates.secure(Map.of(), Permission.NONE)))) {
      server.start();
      assertThrows(
          IOException.class,
          () -> BenchCertificates.connect(client, server.port(), "TLSv1.2").close());
    }
  }

  @Test
  void q5AClientWhoseCertificateHasExpired() throws Exception {
    expire("client-Operator");
    assertClientRefused(certificates.client("client-Operator"));
  }

  @Test
  void q5AClientWhoseCertificateWasRevoked() throws Exception {
    Files.writeString(
        folder.resolve("ca.conf"),
        """
        [ca]
        default_ca = bench
        [bench]
        database = index.txt
        default_md = sha256
        default_crl_days = 30
        """);
    Files.writeString(folder.resolve("index.txt"), "");
    String[] ca = {
      "openssl", "ca", "-config", "ca.conf", "-cert", "authority.pem", "-keyfile", "authority.key"
    };
    BenchCertificates.run(folder, with(ca, "-revoke", "client-Operator.pem"));
    BenchCertificates.run(folder, with(ca, "-gencrl", "-out", "revoked.pem"));
    assertClientRefused(certificates.client("client-Operator"));
  }

  private static String[] with(String[] first, String... more) {
    String[] all = Arrays.copyOf(first, first.length + more.length);
    System.arraycopy(more, 0, all, first.length, more.length);
    return all;
  }
}
