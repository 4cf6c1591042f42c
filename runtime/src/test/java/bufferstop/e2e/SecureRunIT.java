package bufferstop.e2e;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A project with a secure listener, its certificates made by {@code scripts/bench-certs}, and
 * OpenSSL's own client. Without openssl it is skipped, unless BUFFERSTOP_REQUIRE_CLIENTS is set.
 */
class SecureRunIT {
  private static final Pattern SECURE =
      Pattern.compile(
          "Modbus/TCP Security on 127\\.0\\.0\\.1:(\\d+), unit 1, roles Operator, Viewer");
  private static final String PROJECT =
      """
      project: Behind a lock
      controller:
        operator: {start: {type: BOOL}, speed: {type: UINT}}
      modbus:
        hmi:
          listen: 127.0.0.1:0
          secure:
            listen: 127.0.0.1:0
            certificate: certs/server.pem
            key: certs/server.key
            authorities: certs/authority.pem
            roles:
              Operator: {read: all, write: all}
              Viewer: {read: [settings]}
          map:
            - {section: settings}
            - {point: speed, holding_register: 0}
            - {section: commands}
            - {point: start, coil: 0}
      """;

  @TempDir Path folder;

  @BeforeEach
  void makeProject() throws Exception {
    boolean there = Path.of("/usr/bin/openssl").toFile().canExecute();
    if (!there && System.getenv("BUFFERSTOP_REQUIRE_CLIENTS") != null) {
      fail("openssl is not installed");
    }
    assumeTrue(there, "openssl is not installed");
    String script = Launched.TOP.resolve("scripts/bench-certs").toString();
    Process process =
        new ProcessBuilder(script, folder.resolve("certs").toString(), "Operator", "Viewer")
            .redirectErrorStream(true)
            .start();
    String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, process.waitFor(), text);
    Files.writeString(folder.resolve("project.yaml"), PROJECT);
  }

  private static int securePort(Launched run) {
    await().atMost(Duration.ofSeconds(60)).until(() -> SECURE.matcher(run.output()).find());
    Matcher matcher = SECURE.matcher(run.output());
    assertTrue(matcher.find());
    return Integer.parseInt(matcher.group(1));
  }

  /** One request, in hex, and what comes back. */
  private String ask(int port, String certificate, String request) throws Exception {
    List<String> words =
        new ArrayList<>(
            List.of("openssl", "s_client", "-quiet", "-verify_return_error", "-connect"));
    words.addAll(List.of("127.0.0.1:" + port, "-CAfile", "certs/authority.pem"));
    if (certificate != null) {
      words.addAll(List.of("-cert", "certs/client-" + certificate + ".pem"));
      words.addAll(List.of("-key", "certs/client-" + certificate + ".key"));
    }
    Process client =
        new ProcessBuilder(words)
            .directory(folder.toFile())
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    try {
      client.getOutputStream().write(HexFormat.of().parseHex(request.replace(" ", "")));
      client.getOutputStream().flush();
      byte[] header = client.getInputStream().readNBytes(7);
      if (header.length < 7) {
        return "nothing";
      }
      byte[] pdu = client.getInputStream().readNBytes((header[4] << 8 | header[5] & 0xFF) - 1);
      byte[] answer = Arrays.copyOf(header, 7 + pdu.length);
      System.arraycopy(pdu, 0, answer, 7, pdu.length);
      return HexFormat.ofDelimiter(" ").withUpperCase().formatHex(answer);
    } catch (IOException e) {
      return "nothing"; // the client has ended before it was asked anything
    } finally {
      client.destroy();
    }
  }

  @Test
  void rolesDecideWhatOpensslsClientMay() throws Exception {
    try (Launched run = Launched.bufferstop("run", folder.toString())) {
      int port = securePort(run);
      assertTrue(run.port() > 0, "the plain listener stands beside it");
      String write = "00 01 00 00 00 06 01 06 00 00 00 2A";
      String read = "00 02 00 00 00 06 01 03 00 00 00 01";
      assertEquals(write, ask(port, "Operator", write));
      assertEquals("00 02 00 00 00 05 01 03 02 00 2A", ask(port, "Viewer", read));
      assertEquals("00 01 00 00 00 03 01 86 01", ask(port, "Viewer", write));
      assertEquals("00 02 00 00 00 03 01 83 01", ask(port, "without-role", read));
      assertEquals("nothing", ask(port, null, read));
    }
  }

  /** MB-TCP-Security v36, R-57 to R-60 [re-read]; rows Q10 and Q11 of the project's check table. */
  @Test
  void shortFragmentsAndSafeRenegotiationAreAgreedAndNothingIsCompressed() throws Exception {
    try (Launched run = Launched.bufferstop("run", folder.toString())) {
      List<String> words =
          List.of(
              "openssl",
              "s_client",
              "-tls1_2",
              "-tlsextdebug",
              "-maxfraglen",
              "512",
              "-connect",
              "127.0.0.1:" + securePort(run),
              "-CAfile",
              "certs/authority.pem",
              "-cert",
              "certs/client-Operator.pem",
              "-key",
              "certs/client-Operator.key");
      Process client =
          new ProcessBuilder(words)
              .directory(folder.toFile())
              .redirectErrorStream(true)
              .redirectInput(Path.of("/dev/null").toFile())
              .start();
      String told = new String(client.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      client.waitFor();
      assertTrue(told.contains("TLS server extension \"max fragment length\" (id=1), len=1"), told);
      assertTrue(told.contains("Secure Renegotiation IS supported"), told);
      assertTrue(told.contains("Compression: NONE"), told);
      run.terminate();
      assertEquals(0, run.status(), run.output());
    }
  }

  @Test
  void aKeyThatDoesNotFitIsOneLineAndStatusThree() throws Exception {
    Files.copy(
        folder.resolve("certs/client-Viewer.key"),
        folder.resolve("certs/server.key"),
        StandardCopyOption.REPLACE_EXISTING);
    try (Launched run = Launched.bufferstop("run", folder.toString())) {
      assertEquals(3, run.status(), run.output());
      assertEquals(1, run.output().lines().count(), run.output());
      assertTrue(
          run.output().contains("server.key is not the key of the certificate beside it"),
          run.output());
    }
  }

  @Test
  void anAddressThatOthersReachIsWarnedOf() throws Exception {
    String open = PROJECT.replace("listen: 127.0.0.1:0", "listen: 0.0.0.0:0");
    Files.writeString(folder.resolve("project.yaml"), open);
    try (Launched run = Launched.bufferstop("run", folder.toString(), "--for", "T#100ms")) {
      assertEquals(0, run.status(), run.output());
      assertTrue(
          run.output()
              .contains(
                  "warning: 0.0.0.0 is not this machine alone; whoever reaches this address can"
                      + " operate the controller"),
          run.output());
      assertTrue(run.output().contains("whoever has a good certificate"), run.output());
    }
  }
}
