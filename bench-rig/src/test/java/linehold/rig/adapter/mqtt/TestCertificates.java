package linehold.rig.adapter.mqtt;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/**
 * A certificate authority and a broker's certificate that it has signed, made for one test.
 *
 * @param authority PEM
 * @param certificate of the broker, PEM
 * @param key of the broker, PEM
 */
record TestCertificates(Path authority, Path certificate, Path key) {
    /** @param name which the broker's certificate is for, such as {@code IP:127.0.0.1} */
    static TestCertificates make(Path folder, String name) throws IOException, InterruptedException {
        Files.createDirectories(folder);
        openssl(
                folder,
                "req -x509 -newkey rsa:2048 -nodes -days 2 -subj /CN=test-authority -keyout ca.key -out ca.pem");
        openssl(folder, "req -newkey rsa:2048 -nodes -subj /CN=test-broker -keyout broker.key -out broker.csr");
        Files.writeString(folder.resolve("broker.ext"), "subjectAltName=" + name + "\n");
        openssl(
                folder,
                "x509 -req -in broker.csr -CA ca.pem -CAkey ca.key -CAcreateserial -days 2 -extfile broker.ext"
                        + " -out broker.pem");
        return new TestCertificates(
                folder.resolve("ca.pem"), folder.resolve("broker.pem"), folder.resolve("broker.key"));
    }

    private static void openssl(Path folder, String arguments) throws IOException, InterruptedException {
        Command.run(List.of(("openssl " + arguments).split(" ")), folder);
    }
}
