package linehold.rig.adapter.mqtt;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.security.cert.CertificateException;
import java.security.cert.CertificateFactory;
import java.util.Collection;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocketFactory;
import javax.net.ssl.TrustManagerFactory;
import linehold.simulator.build.InputException;

/** Whose certificates are believed. */
final class Trust {
    private Trust() {}

    /**
     * @param caFile the only certificates believed, PEM or DER; null for those that the JDK trusts
     * @throws InputException where there is none in it
     */
    static SSLSocketFactory of(Path caFile) {
        try {
            if (caFile == null) {
                return SSLContext.getDefault().getSocketFactory();
            }
            KeyStore store = KeyStore.getInstance(KeyStore.getDefaultType());
            store.load(null, null);
            for (Certificate certificate : certificates(caFile)) {
                store.setCertificateEntry("ca-" + store.size(), certificate);
            }
            TrustManagerFactory factory = TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
            factory.init(store);
            SSLContext context = SSLContext.getInstance("TLS");
            context.init(null, factory.getTrustManagers(), null);
            return context.getSocketFactory();
        } catch (GeneralSecurityException | IOException e) {
            throw new IllegalStateException("this JDK cannot do TLS", e);
        }
    }

    private static Collection<? extends Certificate> certificates(Path file) {
        byte[] bytes;
        try {
            bytes = Files.readAllBytes(file);
        } catch (IOException e) {
            throw new InputException("--mqtt-ca-file: " + file + ": cannot be read (" + FileTrouble.of(e) + ")", e);
        }
        Collection<? extends Certificate> found;
        try {
            found = CertificateFactory.getInstance("X.509").generateCertificates(new ByteArrayInputStream(bytes));
        } catch (CertificateException e) {
            throw noCertificate(file, e);
        }
        if (found.isEmpty()) {
            throw noCertificate(file, null);
        }
        return found;
    }

    private static InputException noCertificate(Path file, Exception cause) {
        return new InputException(
                "--mqtt-ca-file: " + file + ": found no certificate that can be read, expected X.509 as PEM or DER",
                cause);
    }
}
