package linehold.rig.adapter.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.Socket;
import javax.net.ssl.SSLSocketFactory;
import org.junit.jupiter.api.Test;

class PromptSocketsTest {
    /** The client asks for sockets in this way alone. */
    @Test
    void shouldSendAtOnceInTheClearAndEncrypted() throws IOException {
        try (Socket plain = new PromptSockets().createSocket();
                Socket tls = new PromptTlsSockets((SSLSocketFactory) SSLSocketFactory.getDefault()).createSocket()) {
            assertThat(plain.getTcpNoDelay()).isTrue();
            assertThat(tls.getTcpNoDelay()).isTrue();
        }
    }
}
