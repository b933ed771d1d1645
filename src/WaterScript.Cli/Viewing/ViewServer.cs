using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace WaterScript.Cli.Viewing;

/// <summary>
/// Serves a live picture to browsers on this machine. It listens on the loopback address only, answers who asks for it by that address, and nobody that a
/// page of somebody else sends; it reads nothing but the head of a request, and gives nothing but the picture.
/// </summary>
internal sealed class ViewServer : IDisposable
{
    private const int MostConnections = 32;
    private static readonly string[] Names = ["127.0.0.1", "localhost"];
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(5);
    private static readonly TimeSpan Beat = TimeSpan.FromSeconds(10);
    private readonly TcpListener _listener;
    private readonly LivePicture _picture;
    private readonly byte[] _page;
    private int _connections;

    /// <param name="picture">What is served.</param>
    /// <param name="title">What it is of.</param>
    /// <param name="port">Where; 0 for any that is free.</param>
    /// <exception cref="SocketException">The port is taken.</exception>
    public ViewServer(LivePicture picture, string title, int port)
    {
        (_picture, _page) = (picture, LivePage.Of(title));
        _listener = new TcpListener(IPAddress.Loopback, port);
        _listener.Start();
    }

    /// <summary>The port.</summary>
    public int Port => ((IPEndPoint)_listener.LocalEndpoint).Port;

    /// <summary>Where a browser finds it.</summary>
    public string Address => string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{Port}/");

    /// <summary>Serves until it is stopped.</summary>
    public async Task ServeAsync(CancellationToken stop)
    {
        try
        {
            while (!stop.IsCancellationRequested)
            {
                var client = await _listener.AcceptTcpClientAsync(stop).ConfigureAwait(false);
                if (Interlocked.Increment(ref _connections) <= MostConnections) _ = AnswerAsync(client, stop);
                else Drop(client);
            }
        }
        catch (OperationCanceledException)
        {
            // It was stopped.
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _listener.Dispose();

    private void Drop(TcpClient client)
    {
        Interlocked.Decrement(ref _connections);
        client.Dispose();
    }

    private async Task AnswerAsync(TcpClient client, CancellationToken stop)
    {
        try
        {
            using var patience = CancellationTokenSource.CreateLinkedTokenSource(stop);
            patience.CancelAfter(Patience);
            var stream = client.GetStream();
            var head = await RequestHead.ReadAsync(stream, patience.Token).ConfigureAwait(false);
            await AnswerAsync(stream, head, stop).ConfigureAwait(false);
        }
        catch (Exception problem) when (problem is IOException or SocketException or OperationCanceledException or ObjectDisposedException)
        {
            // Whoever asked is gone, or took too long.
        }
        finally
        {
            Drop(client);
        }
    }

    private Task AnswerAsync(Stream stream, RequestHead? head, CancellationToken stop)
    {
        if (head is null) return WriteAsync(stream, "400 Bad Request", "text/plain", "This is not a request that is answered here.\n"u8.ToArray(), "", stop);
        if (!IsOwn(head)) return WriteAsync(stream, "403 Forbidden", "text/plain", "Only a browser on this machine is answered.\n"u8.ToArray(), "", stop);
        if (head.Method != "GET")
            return WriteAsync(stream, "405 Method Not Allowed", "text/plain", "Only GET is answered.\n"u8.ToArray(), "Allow: GET\r\n", stop);
        return head.Target.Split('?')[0] switch
        {
            "/" => WriteAsync(stream, "200 OK", "text/html; charset=utf-8", _page, $"Content-Security-Policy: {LivePage.Policy}\r\n", stop),
            "/picture" => WriteAsync(stream, "200 OK", "text/html; charset=utf-8", _picture.Now.State.Page,
                "Content-Security-Policy: frame-ancestors 'self'\r\n", stop),
            "/events" => SendEventsAsync(stream, stop),
            _ => WriteAsync(stream, "404 Not Found", "text/plain", "There is nothing of that name.\n"u8.ToArray(), "", stop),
        };
    }

    /// <summary>
    /// Whether this address is meant, and no page of somebody else asks: a name that somebody has led to this machine (DNS rebinding) is not answered.
    /// </summary>
    private bool IsOwn(RequestHead head)
    {
        var hosts = Names.Select(name => string.Create(CultureInfo.InvariantCulture, $"{name}:{Port}")).ToList();
        return head.Host is { } host && hosts.Contains(host) && (head.Origin is null || hosts.Exists(own => head.Origin == $"http://{own}"));
    }

    private static async Task WriteAsync(Stream stream, string status, string type, byte[] body, string fields, CancellationToken stop)
    {
        var head = string.Create(CultureInfo.InvariantCulture,
            $"HTTP/1.1 {status}\r\nContent-Type: {type}\r\nContent-Length: {body.Length}\r\n{fields}{Common}Connection: close\r\n\r\n");
        await stream.WriteAsync(Encoding.Latin1.GetBytes(head), stop).ConfigureAwait(false);
        await stream.WriteAsync(body, stop).ConfigureAwait(false);
    }

    private const string Common =
        "Cache-Control: no-store\r\nX-Content-Type-Options: nosniff\r\nReferrer-Policy: no-referrer\r\nCross-Origin-Resource-Policy: same-origin\r\n";

    /// <summary>Server-sent events (HTML, 9.2): what is shown, whenever it changes; a comment now and then shows who is gone.</summary>
    private async Task SendEventsAsync(Stream stream, CancellationToken stop)
    {
        var head = $"HTTP/1.1 200 OK\r\nContent-Type: text/event-stream\r\n{Common}Connection: close\r\n\r\n";
        await stream.WriteAsync(Encoding.Latin1.GetBytes(head), stop).ConfigureAwait(false);
        var sent = 0;
        while (!stop.IsCancellationRequested)
        {
            var (state, next) = _picture.Now;
            var text = state.Number == sent ? ": still here\n\n" : $"data: {state.Line}\n\n";
            await stream.WriteAsync(Encoding.UTF8.GetBytes(text), stop).ConfigureAwait(false);
            sent = state.Number;
            await Task.WhenAny(next, Task.Delay(Beat, stop)).ConfigureAwait(false);
        }
    }
}
