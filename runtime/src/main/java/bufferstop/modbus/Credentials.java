package bufferstop.modbus;

import bufferstop.model.Serving.Permission;
import bufferstop.model.Serving.Secure;
import java.io.IOException;
import java.net.Socket;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.PrivateKey;
import java.security.cert.CRL;
import java.security.cert.CertStore;
import java.security.cert.Certificate;
import java.security.cert.CertificateExpiredException;
import java.security.cert.CollectionCertStoreParameters;
import java.security.cert.PKIXBuilderParameters;
import java.security.cert.X509CertSelector;
import java.security.cert.X509Certificate;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import javax.net.ssl.CertPathTrustManagerParameters;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLPeerUnverifiedException;
import javax.net.ssl.SSLSession;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.TrustManager;
import javax.net.ssl.TrustManagerFactory;

/**
 * What the secure listener proves itself with, whom it trusts, and with what. Source of the rules:
 * Modbus/TCP Security Protocol Specification, MB-TCP-Security-v36 [re-read].
 */
public final class Credentials {
  // Q2; Q6 to Q9: only suites with SHA-256 or better, the two mandatory ones among them
  private static final String[] PROTOCOLS = {"TLSv1.3", "TLSv1.2"};
  private static final String[] SUITES = {
    "TLS_AES_128_GCM_SHA256",
    "TLS_AES_256_GCM_SHA384",
    "TLS_ECDHE_ECDSA_WITH_AES_128_GCM_SHA256",
    "TLS_ECDHE_RSA_WITH_AES_128_GCM_SHA256",
    "TLS_ECDHE_ECDSA_WITH_AES_256_GCM_SHA384",
    "TLS_ECDHE_RSA_WITH_AES_256_GCM_SHA384",
  };

  private final SSLContext context;
  private final Secure secure;

  private Credentials(SSLContext context, Secure secure) {
    this.context = context;
    this.secure = secure;
  }

  /**
   * Reads the files.
   *
   * @throws IOException when one is missing, is not what it should be, or has expired; the message
   *     tells which and what to do
   */
  public static Credentials load(Secure secure) throws IOException {
    List<X509Certificate> chain = Pem.certificates(secure.certificate());
    List<X509Certificate> roots = Pem.certificates(secure.authorities());
    PrivateKey key = Pem.privateKey(secure.key(), chain.get(0));
    X509Certificate last = chain.get(chain.size() - 1);
    if (!last.getSubjectX500Principal().equals(last.getIssuerX500Principal())) {
      throw new IOException(
          secure.certificate()
              + ": the chain ends at `"
              + last.getSubjectX500Principal().getName()
              + "`, which is no root; append the certificates up to the root"); // Q4
    }
    try {
      SSLContext context = SSLContext.getInstance("TLS");
      context.init(keys(key, chain), trust(roots, secure), null);
      return new Credentials(context, secure);
    } catch (GeneralSecurityException e) {
      throw new IOException("TLS cannot be set up: " + e.getMessage(), e);
    }
  }

  private static javax.net.ssl.KeyManager[] keys(PrivateKey key, List<X509Certificate> chain)
      throws GeneralSecurityException, IOException {
    KeyStore store = KeyStore.getInstance("PKCS12");
    store.load(null, null);
    store.setKeyEntry("server", key, new char[0], chain.toArray(Certificate[]::new));
    KeyManagerFactory factory = KeyManagerFactory.getInstance("PKIX");
    factory.init(store, new char[0]);
    return factory.getKeyManagers();
  }

  private static TrustManager[] trust(List<X509Certificate> roots, Secure secure)
      throws GeneralSecurityException, IOException {
    KeyStore store = KeyStore.getInstance("PKCS12");
    store.load(null, null);
    for (int i = 0; i < roots.size(); i++) {
      store.setCertificateEntry("authority-" + i, roots.get(i));
    }
    PKIXBuilderParameters parameters = new PKIXBuilderParameters(store, new X509CertSelector());
    parameters.setRevocationEnabled(secure.revoked() != null);
    if (secure.revoked() != null) {
      Collection<? extends CRL> lists = Pem.revocations(secure.revoked());
      parameters.addCertStore(
          CertStore.getInstance("Collection", new CollectionCertStoreParameters(lists)));
    }
    TrustManagerFactory factory = TrustManagerFactory.getInstance("PKIX");
    factory.init(new CertPathTrustManagerParameters(parameters));
    return factory.getTrustManagers();
  }

  /** TLS over an accepted socket, as the server; the handshake is still to come. */
  SSLSocket over(Socket socket) throws IOException {
    SSLSocket tls = (SSLSocket) context.getSocketFactory().createSocket(socket, null, true);
    tls.setUseClientMode(false);
    tls.setNeedClientAuth(true); // Q3
    tls.setEnabledProtocols(PROTOCOLS);
    tls.setEnabledCipherSuites(supported(tls));
    return tls;
  }

  private static String[] supported(SSLSocket tls) {
    List<String> all = List.of(tls.getSupportedCipherSuites());
    return Arrays.stream(SUITES).filter(all::contains).toArray(String[]::new);
  }

  /** What the owner of a session's certificate may do; a resumed session keeps its certificate. */
  Permission permission(SSLSession session) throws SSLPeerUnverifiedException {
    if (secure.roles().isEmpty()) {
      return Permission.ALL;
    }
    String role = Role.of((X509Certificate) session.getPeerCertificates()[0]);
    Permission found = role == null ? secure.withoutRole() : secure.roles().get(role);
    return found == null ? Permission.NONE : found;
  }

  /** Why a handshake failed: what stands at the bottom of the chain of causes. */
  static String why(Throwable failure) {
    Throwable bottom = failure;
    while (bottom.getCause() != null) {
      bottom = bottom.getCause();
    }
    if (bottom instanceof CertificateExpiredException) {
      return "its certificate has expired; scripts/bench-certs makes new ones for the bench";
    }
    return bottom.getMessage() == null ? bottom.toString() : bottom.getMessage();
  }
}
