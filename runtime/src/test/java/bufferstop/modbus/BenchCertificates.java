package bufferstop.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import bufferstop.model.Position;
import bufferstop.model.Serving.Permission;
import bufferstop.model.Serving.Secure;
import java.io.IOException;
import java.io.InputStream;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.security.cert.CertificateFactory;
import java.security.cert.X509Certificate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.TrustManagerFactory;

/**
 * A folder of certificates as {@code scripts/bench-certs} makes them, and clients that use them.
 * Without openssl the test is skipped, unless BUFFERSTOP_REQUIRE_CLIENTS is set.
 */
record BenchCertificates(Path folder) {
  private static final Path SCRIPT = Path.of("../scripts/bench-certs").toAbsolutePath().normalize();

  static BenchCertificates in(Path folder, String... more) throws Exception {
    boolean there = Path.of("/usr/bin/openssl").toFile().canExecute();
    if (!there && System.getenv("BUFFERSTOP_REQUIRE_CLIENTS") != null) {
      fail("openssl is not installed");
    }
    assumeTrue(there, "openssl is not installed");
    List<String> words = new ArrayList<>(List.of(SCRIPT.toString(), folder.toString()));
    words.addAll(List.of(more));
    Files.createDirectories(folder);
    run(folder, words.toArray(String[]::new));
    return new BenchCertificates(folder);
  }

  /** Runs a program that must end well. */
  static String run(Path folder, String... words) throws IOException, InterruptedException {
    Process process =
        new ProcessBuilder(words).directory(folder.toFile()).redirectErrorStream(true).start();
    process.getOutputStream().close();
    String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, process.waitFor(), text);
    return text;
  }

  Path file(String name) {
    return folder.resolve(name);
  }

  Secure secure(Map<String, Permission> roles, Permission withoutRole) {
    return new Secure(
        "127.0.0.1",
        0,
        file("server.pem"),
        file("server.key"),
        file("authority.pem"),
        Files.exists(file("revoked.pem")) ? file("revoked.pem") : null,
        roles,
        withoutRole,
        Position.ofFile("project.yaml"));
  }

  X509Certificate certificate(String name) throws IOException {
    return Pem.certificates(file(name + ".pem")).get(0);
  }

  /** The same, whatever its dates are. */
  X509Certificate uncheckedCertificate(String name) throws IOException, GeneralSecurityException {
    return chain(name).get(0);
  }

  private List<X509Certificate> chain(String name) throws IOException, GeneralSecurityException {
    try (InputStream in = Files.newInputStream(file(name + ".pem"))) {
      return CertificateFactory.getInstance("X.509").generateCertificates(in).stream()
          .map(X509Certificate.class::cast)
          .toList();
    }
  }

  /** A client that shows a certificate of the folder, or none. */
  SSLContext client(String name) throws IOException, GeneralSecurityException {
    KeyStore own = KeyStore.getInstance("PKCS12");
    own.load(null, null);
    if (name != null) {
      List<X509Certificate> chain = chain(name);
      own.setKeyEntry(
          "client",
          Pem.privateKey(file(name + ".key"), chain.get(0)),
          new char[0],
          chain.toArray(Certificate[]::new));
    }
    KeyManagerFactory keys = KeyManagerFactory.getInstance("PKIX");
    keys.init(own, new char[0]);
    KeyStore roots = KeyStore.getInstance("PKCS12");
    roots.load(null, null);
    roots.setCertificateEntry("authority", certificate("authority"));
    TrustManagerFactory trust = TrustManagerFactory.getInstance("PKIX");
    trust.init(roots);
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(keys.getKeyManagers(), trust.getTrustManagers(), null);
    return context;
  }

  /** A connection of such a client; the handshake is done. */
  static Client connect(SSLContext context, int port, String protocol) throws IOException {
    Socket plain = new Socket("127.0.0.1", port);
    SSLSocket tls =
        (SSLSocket) context.getSocketFactory().createSocket(plain, "127.0.0.1", port, true);
    tls.setEnabledProtocols(new String[] {protocol});
    try {
      tls.startHandshake();
    } catch (IOException e) {
      tls.close();
      throw e;
    }
    return new Client(tls);
  }
}
