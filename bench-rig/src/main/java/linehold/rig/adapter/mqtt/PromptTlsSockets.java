package linehold.rig.adapter.mqtt;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import javax.net.ssl.SSLSocketFactory;

/** The same with encryption: {@link PromptSockets} tells why. */
final class PromptTlsSockets extends SSLSocketFactory {
    private final SSLSocketFactory tls;

    PromptTlsSockets(SSLSocketFactory tls) {
        this.tls = tls;
    }

    @Override
    public String[] getDefaultCipherSuites() {
        return tls.getDefaultCipherSuites();
    }

    @Override
    public String[] getSupportedCipherSuites() {
        return tls.getSupportedCipherSuites();
    }

    @Override
    public Socket createSocket() throws IOException {
        return PromptSockets.prompt(tls.createSocket());
    }

    @Override
    public Socket createSocket(Socket socket, String host, int port, boolean autoClose) throws IOException {
        return PromptSockets.prompt(tls.createSocket(socket, host, port, autoClose));
    }

    @Override
    public Socket createSocket(String host, int port) throws IOException {
        return PromptSockets.prompt(tls.createSocket(host, port));
    }

    @Override
    public Socket createSocket(String host, int port, InetAddress localHost, int localPort) throws IOException {
        return PromptSockets.prompt(tls.createSocket(host, port, localHost, localPort));
    }

    @Override
    public Socket createSocket(InetAddress host, int port) throws IOException {
        return PromptSockets.prompt(tls.createSocket(host, port));
    }

    @Override
    public Socket createSocket(InetAddress host, int port, InetAddress localHost, int localPort) throws IOException {
        return PromptSockets.prompt(tls.createSocket(host, port, localHost, localPort));
    }
}
