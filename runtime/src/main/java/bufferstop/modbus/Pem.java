package bufferstop.modbus;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyFactory;
import java.security.PrivateKey;
import java.security.PublicKey;
import java.security.Signature;
import java.security.cert.CRL;
import java.security.cert.CRLException;
import java.security.cert.CertificateException;
import java.security.cert.CertificateExpiredException;
import java.security.cert.CertificateFactory;
import java.security.cert.CertificateNotYetValidException;
import java.security.cert.X509Certificate;
import java.security.spec.PKCS8EncodedKeySpec;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Base64;
import java.util.Collection;
import java.util.Date;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Certificates and keys from PEM files, with messages for people. */
final class Pem {
  private static final Pattern KEY =
      Pattern.compile("-----BEGIN ([A-Z ]*)PRIVATE KEY-----([^-]*)-----END");
  private static final String MAKE_NEW = "; scripts/bench-certs makes new ones for the bench";

  private Pem() {}

  /** At least one certificate, all of them valid today. */
  static List<X509Certificate> certificates(Path file) throws IOException {
    List<X509Certificate> found;
    try (InputStream in = new ByteArrayInputStream(bytes(file))) {
      found =
          CertificateFactory.getInstance("X.509").generateCertificates(in).stream()
              .map(X509Certificate.class::cast)
              .toList();
    } catch (CertificateException e) {
      throw new IOException(file + " holds no certificate that can be read" + MAKE_NEW, e);
    }
    if (found.isEmpty()) {
      throw new IOException(file + " holds no certificate" + MAKE_NEW);
    }
    for (X509Certificate certificate : found) {
      checkDates(file, certificate);
    }
    return found;
  }

  private static void checkDates(Path file, X509Certificate certificate) throws IOException {
    String who = file + ": the certificate of `" + certificate.getSubjectX500Principal() + "` ";
    try {
      certificate.checkValidity();
    } catch (CertificateExpiredException e) {
      throw new IOException(who + "expired on " + day(certificate.getNotAfter()) + MAKE_NEW, e);
    } catch (CertificateNotYetValidException e) {
      throw new IOException(
          who + "is not valid before " + day(certificate.getNotBefore()) + "; is the clock right?",
          e);
    }
  }

  private static String day(Date date) {
    return DateTimeFormatter.ISO_LOCAL_DATE.format(date.toInstant().atZone(ZoneOffset.UTC));
  }

  /** The private key that belongs to a certificate. */
  static PrivateKey privateKey(Path file, X509Certificate certificate) throws IOException {
    String text = new String(bytes(file), StandardCharsets.ISO_8859_1);
    Matcher matcher = KEY.matcher(text);
    if (!matcher.find()) {
      throw new IOException(file + " holds no private key" + MAKE_NEW);
    }
    if (!matcher.group(1).isEmpty()) {
      throw new IOException(
          file
              + " holds a key of the kind `"
              + matcher.group(1).trim()
              + "`; expected PKCS #8, not encrypted, as `openssl pkcs8 -topk8 -nocrypt` writes it");
    }
    try {
      byte[] der = Base64.getMimeDecoder().decode(matcher.group(2));
      String algorithm = certificate.getPublicKey().getAlgorithm();
      PrivateKey key =
          KeyFactory.getInstance(algorithm).generatePrivate(new PKCS8EncodedKeySpec(der));
      if (!isPair(key, certificate.getPublicKey())) {
        throw new IOException(file + " is not the key of the certificate beside it" + MAKE_NEW);
      }
      return key;
    } catch (GeneralSecurityException | IllegalArgumentException e) {
      throw new IOException(file + " is not the key of the certificate beside it" + MAKE_NEW, e);
    }
  }

  private static boolean isPair(PrivateKey key, PublicKey other) throws GeneralSecurityException {
    String algorithm = other.getAlgorithm().equals("EC") ? "SHA256withECDSA" : "SHA256withRSA";
    byte[] message = {1, 2, 3};
    Signature signature = Signature.getInstance(algorithm);
    signature.initSign(key);
    signature.update(message);
    byte[] signed = signature.sign();
    signature.initVerify(other);
    signature.update(message);
    return signature.verify(signed);
  }

  static Collection<? extends CRL> revocations(Path file) throws IOException {
    try (InputStream in = new ByteArrayInputStream(bytes(file))) {
      return CertificateFactory.getInstance("X.509").generateCRLs(in);
    } catch (CertificateException | CRLException e) {
      throw new IOException(file + " holds no revocation list that can be read", e);
    }
  }

  private static byte[] bytes(Path file) throws IOException {
    if (!Files.isRegularFile(file)) {
      throw new IOException("there is no file " + file + MAKE_NEW);
    }
    return Files.readAllBytes(file);
  }
}
